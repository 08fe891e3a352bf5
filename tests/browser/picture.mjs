// Takes the picture of a lesson sheet that the README shows, from a published site:
//   node tests/browser/picture.mjs [SITE]
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const top = resolve(import.meta.dirname, '../..');
const site = resolve(process.argv[2] ?? `${top}/site`);
const browser = await chromium.launch({
  executablePath: process.env.SEATWORK_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: 'reduce' });
const page = await context.newPage();
await page.goto(`${pathToFileURL(`${site}/en/lessons/parts.html`)}?p=part_by_its_job&no=48213&units=us`);
await page.locator('.figure').first().evaluate((figure) => scrollTo(0, scrollY + figure.getBoundingClientRect().top - 40));
await page.waitForTimeout(500);
await page.screenshot({ path: `${top}/theme/pictures/lesson.png` });
await browser.close();
