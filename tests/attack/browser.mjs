// Injections: texts that would run in a careless page, in every place of a journal, looked at in Chromium with the pages' own policy
// taken out, so that nothing but the pages themselves holds them back.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { chromium } from 'playwright-core';
import { publish } from '../../dist/src/site/publish.js';
import { newFolder, removeFolder, writeFiles } from './folders.mjs';

const mark = 'window.__ran=1';
const payloads = [
  `<script>${mark}</script>`,
  `"><script>${mark}</script>`,
  `'><img src=x onerror=${mark}>`,
  `<img src=x onerror="${mark}">`,
  `"onmouseover="${mark}" autofocus onfocus="${mark}`,
  `</title><script>${mark}</script>`,
  `</style></script><script>${mark}</script>`,
  `<svg onload=${mark}>`,
  `<svg><script>${mark}</script></svg>`,
  `<iframe srcdoc="<script>parent.__ran=1</script>">`,
  `[x](javascript:${mark})`,
  `![x](javascript:${mark})`,
  `<javascript:${mark}>`,
  `[x](JaVaScRiPt&colon;${mark})`,
  `[x](data:text/html,<script>${mark}</script>)`,
  `<a href="javascript:${mark}">x</a>`,
  `<details open ontoggle=${mark}>`,
  `:chem[<img src=x onerror=${mark}>]`,
  `:value[<img src=x onerror=${mark}>]`,
  `:swatch[<svg onload=${mark}>]`,
  `]]><script>${mark}</script>`,
  `<!--><script>${mark}</script>-->`,
  `<math><mtext></form><form><mglyph><style></math><img src onerror=${mark}>`,
  `\u2028<script>${mark}</script>`,
  `&lt;script&gt;${mark}&lt;/script&gt;`,
  `<base href="https://attacker.example/">`,
  `<meta http-equiv="refresh" content="0;url=javascript:${mark}">`,
  `{{constructor.constructor('${mark}')()}}`,
  `\`\`\`html\n<script>${mark}</script>\n\`\`\``,
  `| a |\n|---|\n| <script>${mark}</script> |`,
  `[^x]\n\n[^x]: <script>${mark}</script>`,
];

const yaml = (text) => JSON.stringify(text);

/** A journal with texts in every place that takes words. */
const journalOf = (next) => ({
  'journal/journal.yaml': `title: ${yaml(next())}\nsubtitle: ${yaml(next())}\naddress: https://test.example/\nauthor: ${yaml(next())}\nlicence: ${yaml(next())}\ndescription: ${yaml(next())}\ncautions: [${yaml(next())}]\nsupport-link: { name: ${yaml(next())}, url: "https://a.example/?${encodeURIComponent(next())}" }\n`,
  'journal/shelf.yaml': `blue-vitriol: { name: ${yaml(next())}, formula: CuSO4·5H2O, also-called: [${yaml(next())}] }\n`,
  'journal/entries/001-x.md': `---
number: 1
title: ${yaml(next())}
date: 2026-01-11
status: finished
question: ${yaml(next())}
answer: ${yaml(next())}
pigment: { name: ${yaml(next())}, formula: Cu2CO3(OH)2, family: green }
reagents: [{ reagent: blue-vitriol, amount: 5.00 g }, { reagent: { name: ${yaml(next())}, formula: Na2CO3 }, amount: 2.50 g }]
samples:
  - { sample: A, differs: ${yaml(next())}, note: ${yaml(next())}, obtained: 1.98 g, colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 } }
  - { sample: B, differs: ${yaml(next())}, obtained: 1.90 g }
precautions: [{ against: ${yaml(next())}, do: ${yaml(next())} }]
if-it-goes-wrong: ${yaml(next())}
waste: ${yaml(next())}
incidents: [{ what: ${yaml(next())}, learned: ${yaml(next())} }]
ideas: [${yaml(next())}]
sources: [{ cite: ${yaml(next())}, url: "https://a.example/?${encodeURIComponent(next())}" }]
videos: [{ url: "https://a.example/${encodeURIComponent(next())}", moments: [{ at: "3:40", shows: ${yaml(next())} }] }]
---
${next()}

# ${next()}

${next()} and ${next()}
`,
  'journal/pages/about.md': `---\ntitle: ${yaml(next())}\n---\n${next()}\n\n${next()}\n`,
  'journal/series/Cu.md': next(),
  'journal/colours/green.md': next(),
});

const types = {
  '.html': 'text/html',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

/** A plain host of the folder; the policy is taken out of its pages. */
function host(folder) {
  const server = createServer((request, response) => {
    let file = join(folder, decodeURIComponent(new URL(request.url, 'http://host').pathname));
    if (existsSync(file) && statSync(file).isDirectory()) file = join(file, 'index.html');
    if (!existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    const content = readFileSync(file);
    const isPage = file.endsWith('.html');
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    response.end(isPage ? content.toString().replace(/<meta http-equiv=Content-Security-Policy[^>]*>/, '') : content);
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

function browserProgram() {
  if (process.env.CHROMIUM) return process.env.CHROMIUM;
  for (const name of ['chromium', 'chromium-browser', 'google-chrome'])
    if (spawnSync('which', [name]).status === 0) return spawnSync('which', [name], { encoding: 'utf8' }).stdout.trim();
  return undefined;
}

/** Everything that a reader can set off on a page. */
const setOff = () => {
  for (const element of document.querySelectorAll('*')) {
    for (const name of ['mouseover', 'focus', 'toggle', 'click'])
      if (element.tagName !== 'A' && element.tagName !== 'BUTTON') element.dispatchEvent(new Event(name));
  }
  const links = [...document.querySelectorAll('a, area, form, iframe, base, meta[http-equiv=refresh]')];
  return {
    ran: window.__ran === 1,
    links: links
      .map((one) => one.getAttribute('href') ?? one.getAttribute('action') ?? one.outerHTML)
      .filter((link) => /^\s*(javascript|data|vbscript):/i.test(link) || /^<(iframe|base|meta)/i.test(link)),
  };
};

const pages = [
  '/',
  '/1/',
  '/1/bench/',
  '/about/',
  '/series/',
  '/series/Cu/',
  '/colours/green/',
  '/reagents/',
  '/reagents/blue-vitriol/',
  '/results/',
  '/incidents/',
  '/ideas/',
  '/entries/',
  '/search/?q=script',
  '/404.html',
];

const flags = [
  '--no-sandbox',
  '--headless',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
];

/** Looks at every page of a site; tells what ran or leads where it should not. */
async function lookAt(page, port) {
  const bad = [];
  let looked = 0;
  for (const address of pages) {
    const answer = await page.goto(`http://127.0.0.1:${port}${address}`, { waitUntil: 'load' });
    if (answer?.status() !== 200) continue;
    if (address.startsWith('/search')) await page.waitForTimeout(150);
    looked += 1;
    const { ran, links } = await page.evaluate(setOff);
    if (ran) bad.push(`on ${address} something ran`);
    if (links.length > 0) bad.push(`on ${address}: ${links.join(', ')}`);
  }
  return { bad, looked };
}

/** Publishes a journal full of injections; how many there are, or what kept it from being published. */
async function publishInjected(folder, random) {
  let used = 0;
  const files = journalOf(() => {
    used += 1;
    return random.isOneIn(6) ? `${random.oneOf(payloads)}${random.oneOf(payloads)}` : random.oneOf(payloads);
  });
  removeFolder(join(folder, 'journal'));
  writeFiles(folder, files);
  const options = { to: join(folder, 'site'), search: random.isOneIn(4), threads: 0 };
  const { published, remarks } = await publish(join(folder, 'journal'), options);
  return published
    ? { used, files }
    : {
        why: remarks
          .filter((one) => one.fatal)
          .map(String)
          .join('; '),
      };
}

/** The attack in a browser that is there. */
async function injections({ random, until, most, page, port, folder }) {
  const found = [];
  let [tried, looked, refused] = [0, 0, 0];
  while (tried < most && Date.now() < until) {
    const { used = 0, files, why } = await publishInjected(folder, random);
    tried += used;
    if (why !== undefined) {
      refused += 1;
      if (refused > 50 && looked === 0) return { tried, looked, refused, found: [`none is published: ${why}`] };
      continue;
    }
    const seen = await lookAt(page, port);
    looked += seen.looked;
    for (const bad of seen.bad) found.push(`${bad} of ${JSON.stringify(files)}`);
  }
  return { tried, looked, refused, found };
}

export async function attackBrowser({ random, until, report, only: most = Infinity }) {
  const executablePath = browserProgram();
  if (!executablePath) {
    report({ tried: 0, found: [], words: 'no Chromium here' });
    return;
  }
  const folder = newFolder();
  const browser = await chromium.launch({ executablePath, args: flags });
  const server = await host(join(folder, 'site'));
  const { port } = server.address();
  const asked = new Set();
  try {
    const page = await browser.newPage();
    page.on('dialog', (dialog) => dialog.dismiss());
    page.on('request', (request) => {
      if (!request.url().startsWith(`http://127.0.0.1:${port}/`)) asked.add(request.url().slice(0, 100));
    });
    const { tried, looked, refused, found } = await injections({ random, until, most, page, port, folder });
    for (const url of asked) found.push(`asked elsewhere: ${url}`);
    report({ tried, found, words: `${looked} pages looked at, ${refused} journals refused` });
  } finally {
    await browser.close();
    server.closeAllConnections();
    server.close();
    removeFolder(folder);
  }
}
