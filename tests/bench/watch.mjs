// Measures for `watch.rs` how long it takes from saving a lesson until an open window shows the change.
//   node watch.mjs ADDRESS COURSE-FOLDER ROUNDS LESSON   prints the milliseconds of each round, in order
// Chromium has the preview's frame open on the lesson; what is taken is the time until the line is drawn within it.
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from '../browser/node_modules/playwright-core/index.mjs';

const [address, folder, rounds, id] = process.argv.slice(2);
const file = join(folder, 'en/lessons', `${id}.md`);

/** Waits in the window for a frame in which the page has the line; gives the clock of this machine. */
const drawn = (line) => new Promise((done) => {
  const look = () => {
    const inner = document.getElementById('page').contentWindow;
    const text = inner.document.querySelector('main')?.textContent ?? '';
    if (text.includes(line)) requestAnimationFrame(() => done(Date.now()));
    else requestAnimationFrame(look);
  };
  look();
});

const browser = await chromium.launch({
  executablePath: process.env.SEATWORK_CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'],
});
const window = await browser.newPage();
await window.goto(`${address}#/site/en/lessons/${id}.html`);
await window.frameLocator('#page').locator('h1').waitFor();
const taken = [];
for (let round = 0; round < Number(rounds); round += 1) {
  const line = `Change ${round} stands here in the browser.`;
  const shown = window.evaluate(drawn, line);
  // A change comes while nothing else is under way.
  await new Promise((go) => { setTimeout(go, 700); });
  const text = readFileSync(file, 'utf8');
  writeFileSync(join(folder, '..', 'beside'), `${text}\n${line}\n`);
  const start = Date.now();
  renameSync(join(folder, '..', 'beside'), file);
  taken.push(await shown - start);
}
await browser.close();
console.log(taken.sort((one, other) => one - other).join(' '));
