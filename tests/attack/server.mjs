// Attacks on the reading copy: requests as no browser writes them. Nothing from outside the journal, no crash, an
// answer each time.
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { startReading } from '../../dist/src/reading/server.js';
import { fewEntries, newFolder, removeFolder, writeFiles } from './folders.mjs';

const secret = 'nothing for readers';
const paths = [
  ...[
    '/',
    '//',
    '/base',
    '/base/',
    '/base/1/',
    '/base/photos/',
    '/base/1/../../secret.txt',
    '/base/photos/../../../secret.txt',
  ],
  ...[
    '/base/..%2fsecret.txt',
    '/base/%2e%2e/secret.txt',
    '/base/%252e%252e/secret.txt',
    '/base/..\\secret.txt',
    '/base/%00',
    '/base/%',
  ],
  ...[
    '/base/photos/out.jpg',
    '/base/photos/%2e%2e%2fsecret.txt',
    '/base/register.txt',
    '/base/journal.yaml',
    '/base/entries/001-x.md',
  ],
  ...[
    '/~reading/remarks',
    '/~reading/remarks?address=/base/../../etc/passwd',
    '/~reading/remarks?address=%00',
    '/~reading/',
  ],
  ...[
    '/base/find/../../secret.txt',
    '/base/data/../secret.txt',
    '/base/1',
    '/base/__proto__',
    '/base/constructor/',
    '/base/.git/HEAD',
  ],
  ...[
    '*',
    'secret.txt',
    'http://attacker.example/',
    'file:///etc/passwd',
    '///etc/passwd',
    '/base/1/?x=%',
    '/base/?length=1',
    '/#x',
  ],
];
const methods = ['GET', 'GET', 'GET', 'HEAD', 'POST', 'PUT', 'OPTIONS', 'TRACE', 'CONNECT', 'get', 'GE T'];

/** One request by hand; what came back, or how it ended. */
function ask(port, request) {
  return new Promise((done) => {
    const socket = connect(port, '127.0.0.1', () => socket.write(request, 'latin1'));
    let text = '';
    const timer = setTimeout(() => {
      socket.destroy();
      done({ text, ended: 'no end' });
    }, 5000);
    const end = (ended) => {
      clearTimeout(timer);
      done({ text, ended });
    };
    socket.on('data', (part) => {
      text += part.toString('latin1');
      // A stream of changes has no end, and half a request gets no answer.
      if (text.includes('text/event-stream')) socket.destroy();
    });
    socket.on('close', () => end('closed'));
    socket.on('error', () => end('reset'));
  });
}

const noise = (random, length) =>
  Array.from({ length }, () => String.fromCharCode(random.below(random.oneOf([32, 128, 256])))).join('');

function requestOf(random, port) {
  const host = `127.0.0.1:${port}`;
  const hosts = random.oneOf([
    [host],
    [host],
    [host],
    [host],
    [],
    ['attacker.example'],
    [host, 'attacker.example'],
    [`${host}.attacker.example`],
  ]);
  const path = random.isOneIn(3) ? `${random.oneOf(paths)}${noise(random, random.below(8))}` : random.oneOf(paths);
  const more = random.isOneIn(5) ? `X-${noise(random, 3)}: ${noise(random, 20)}\r\n` : '';
  const whole =
    `${random.oneOf(methods)} ${path} ` +
    `HTTP/1.1\r\n${hosts.map((one) => `Host: ${one}\r\n`).join('')}${more}Connection: close\r\n\r\n`;
  const cut = random.isOneIn(10) ? whole.slice(0, random.below(whole.length)) : whole;
  return { whole: cut, isWhole: cut === whole, hosts, host };
}

export async function attackServer({ random, until, report, only: most = Infinity }) {
  const folder = newFolder();
  const found = [];
  const statuses = {};
  let tried = 0;
  writeFiles(folder, { ...fewEntries('Read'), 'secret.txt': secret, 'journal/notes.txt': secret });
  mkdirSync(join(folder, 'journal/photos'));
  symlinkSync('../../secret.txt', join(folder, 'journal/photos/out.jpg'));
  writeFileSync(
    join(folder, 'journal/entries/004-x.md'),
    '---\nnumber: 4\ntitle: Four\ndate: 2026-01-04\nstatus: finished\nsamples: [{ sample: A, photo: ' +
      'photos/out.jpg }]\n---\n',
  );
  const copy = await startReading(join(folder, 'journal'), { port: 0 });
  const stop = (error) => found.push(`the server fell: ${error.stack}`);
  process.on('uncaughtException', stop);
  try {
    while (tried < most && Date.now() < until) {
      tried += 1;
      const { whole, isWhole, hosts, host } = requestOf(random, copy.port);
      const halfOpen = !isWhole;
      const { text, ended } = halfOpen ? await askHalf(copy.port, whole) : await ask(copy.port, whole);
      const status = /^HTTP\/1\.1 (\d+)/.exec(text)?.[1] ?? ended;
      statuses[status] = (statuses[status] ?? 0) + 1;
      if (text.includes(secret)) found.push(`${JSON.stringify(whole)} got what lies outside`);
      if (ended === 'no end') found.push(`${JSON.stringify(whole)} got no end`);
      if (status === '200' && (hosts.length !== 1 || hosts[0] !== host))
        found.push(`${JSON.stringify(whole)} was answered`);
      if (status === '500') found.push(`${JSON.stringify(whole)} failed: ${text.slice(-200)}`);
    }
    const well = await ask(
      copy.port,
      `GET /base/1/ HTTP/1.1\r\nHost: 127.0.0.1:${copy.port}\r\nConnection: close\r\n\r\n`,
    );
    if (!well.text.includes('Read words.')) found.push('after all that it does not serve any more');
  } finally {
    process.off('uncaughtException', stop);
    await copy.close();
    removeFolder(folder);
  }
  report({
    tried,
    found,
    words: Object.entries(statuses)
      .map(([status, times]) => `${status}: ${times}`)
      .join(', '),
  });
}

/** Half a request, and then the reader goes. */
function askHalf(port, request) {
  return new Promise((done) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(request, 'latin1');
      setTimeout(() => socket.destroy(), 5);
    });
    let text = '';
    socket.on('data', (part) => (text += part.toString('latin1')));
    socket.on('close', () => done({ text, ended: 'cut' }));
    socket.on('error', () => undefined);
  });
}
