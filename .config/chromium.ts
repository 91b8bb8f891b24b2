// Finds Chromium for the browser tests, installs it where that can be done (Debian, root), or stops with a clear
// sentence.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    chromium: string;
  }
}

const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable'];
const places = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/snap/bin/chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

function find(): string | undefined {
  const named = process.env.CHROMIUM;
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM names ${named}, and there is no such file.`);
    return named;
  }
  for (const name of names) {
    const found = spawnSync('which', [name], { encoding: 'utf8' });
    if (found.status === 0 && found.stdout.trim() !== '') return found.stdout.trim();
  }
  return places.find((place) => existsSync(place));
}

export default function setup(project: TestProject): void {
  let chromium = find();
  if (!chromium && process.getuid?.() === 0 && existsSync('/etc/debian_version')) {
    process.stderr.write('Chromium is not here; installing it with apt-get.\n');
    const environment = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    execFileSync('apt-get', ['update', '-qq'], { env: environment, stdio: 'ignore' });
    execFileSync('apt-get', ['install', '-y', '-qq', 'chromium'], { env: environment, stdio: 'ignore' });
    chromium = find();
  }
  if (!chromium)
    throw new Error(
      'The browser tests need Chromium: install it (Debian: apt-get install chromium), or name its program in ' +
        'the environment variable CHROMIUM, and run npm test again.',
    );
  project.provide('chromium', chromium);
}
