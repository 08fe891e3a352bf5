// A sheet of the site in Chromium, from its file and without a network. Whatever it reports or asks for outside its
// folder is a fault, which `close` raises.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { address, lessonOf, pageOf, recipesOn, site } from './product.mjs';

const browser = await chromium.launch({
  executablePath: process.env.SEATWORK_CHROMIUM || '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});
after(() => browser.close());

export const WIDE = { width: 1320, height: 920 };
export const NARROW = { width: 320, height: 640 };
export const PHONE = { width: 360, height: 740 };

/** Notes every console error and warning, page error, failed request and request from outside the folder. */
export function guard(page, folder = site) {
  return guardWithin(page, `${pathToFileURL(folder).href}/`);
}

/** The same for an address that all others must begin with. */
function guardWithin(page, inside) {
  const faults = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => faults.push(`page error: ${error.message}`));
  page.on('requestfailed', (request) => faults.push(`failed: ${request.url()} ${request.failure().errorText}`));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(inside) && !url.startsWith('data:')) faults.push(`asked for: ${url}`);
  });
  return faults;
}

/** An offline context, closed at the end of the test, which fails where one of its pages has a fault. */
export async function offline(t, options = {}, folder = site) {
  const context = await browser.newContext({
    offline: true, viewport: WIDE, reducedMotion: 'reduce', colorScheme: 'light', ...options,
  });
  const lists = [];
  context.on('page', (page) => lists.push(guard(page, folder)));
  t.after(async () => {
    await context.close();
    assert.deepEqual(lists.flat(), [], 'the browser reported faults');
  });
  return context;
}

/**
 * A context for what a server on this machine gives. The faults that match `but` are expected; so is that a page which is
 * loaded again gives up what it was still asking for.
 */
export async function served(t, address, { but = null, ...options } = {}) {
  const context = await browser.newContext({ viewport: WIDE, reducedMotion: 'reduce', ...options });
  const lists = [];
  context.on('page', (page) => lists.push(guardWithin(page, address)));
  t.after(async () => {
    await context.close();
    const unexpected = lists.flat().filter((fault) => !/ERR_ABORTED/.test(fault) && !but?.test(fault));
    assert.deepEqual(unexpected, [], 'the browser reported faults');
  });
  return context;
}

/** Opens a page of the site in a context of its own. */
export async function open(t, page, options = {}) {
  const context = await offline(t, options);
  const sheet = await context.newPage();
  await sheet.goto(address(page));
  return sheet;
}

/** How what the site keeps in the browser's storage is called there, as its own script says. */
let prefix = null;
async function prefixOf(context) {
  if (prefix === null) {
    const sheet = await context.newPage();
    await sheet.goto(address('index.html'));
    prefix = await sheet.evaluate(() => window.SEATWORK.prefix);
    await sheet.close();
  }
  return prefix;
}

/** Opens a page on which every problem has the same number in every run. */
export async function openNumbered(t, page, options = {}, no = '48213') {
  const context = await offline(t, options);
  const kept = { prefix: await prefixOf(context), ids: recipesOn(page), state: JSON.stringify({ no, us: {}, si: {} }) };
  await context.addInitScript(({ prefix: before, ids, state }) => {
    const key = (id) => `${before}practice/${id}`;
    /* Before the page begins, and not again over what was answered on it. */
    if (location.protocol === 'file:') ids.filter((id) => !localStorage.getItem(key(id))).forEach((id) => localStorage.setItem(key(id), state));
  }, kept);
  const sheet = await context.newPage();
  await sheet.goto(address(page));
  return sheet;
}

/** Changes the size of the screen, and waits until the page has taken it up. */
export async function resize(sheet, viewport) {
  await sheet.setViewportSize(viewport);
  await frames(sheet);
}

/** Waits for two frames: what a script does in answer to an event of the screen is done by then. */
export const frames = (sheet) =>
  sheet.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** The address of exactly one problem, as the sheet itself makes it: on its lesson, or on the page of its recipe. */
export const problem = (recipe, seed, units = 'us') =>
  `${address(lessonOf.get(recipe) ?? pageOf(recipe))}?p=${recipe}&no=${seed}&units=${units}`;

/** Opens the sheet of a problem and gives the block in which it has come alive. */
export async function practise(t, recipe, seed, units = 'us', options = {}) {
  const context = await offline(t, options);
  const sheet = await context.newPage();
  await sheet.goto(problem(recipe, seed, units));
  return { sheet, block: await alive(sheet, recipe) };
}

/** The block of a recipe, once its problem is drawn. */
export async function alive(sheet, recipe) {
  const block = sheet.locator(`.practice[data-recipe="${recipe}"]`);
  await block.scrollIntoViewIfNeeded();
  await block.locator('form').waitFor();
  return block;
}

/** Scrolls past every practice block so that all come alive, and goes back to the top. */
export async function awaken(sheet) {
  const recipes = await sheet.locator('.practice[data-recipe]').evaluateAll((all) => all.map((one) => one.dataset.recipe));
  for (const recipe of recipes) await alive(sheet, recipe);
  await sheet.evaluate(() => scrollTo(0, 0));
  return recipes;
}

/** Opens every first step and every working on the page, to the last line. */
export async function openAll(sheet) {
  const press = (selector) => sheet.locator(selector).evaluateAll((all) => all.forEach((one) => one.click()));
  await press('.practice [aria-expanded="false"]');
  await press('.practice-reveal button:last-child');
}

/** Types an answer for a part by its label and checks it; gives the verdict that stands beside it. */
export async function check(block, label, typed) {
  const field = block.getByLabel(label, { exact: true });
  await field.fill(typed);
  await field.press('Enter');
  return verdict(block, label);
}

export async function verdict(block, label) {
  const field = block.getByLabel(label, { exact: true });
  const described = (await field.getAttribute('aria-describedby')).split(' ').at(-1);
  const status = block.page().locator(`#${described}`);
  return {
    role: await status.getAttribute('role'),
    word: await status.locator('.verdict-word').textContent(),
    text: (await status.locator('.verdict-says').textContent()).replace(/\s+/g, ' ').trim(),
    shape: (await status.locator('.verdict').getAttribute('class')).replace('verdict verdict-', ''),
    status,
    field,
  };
}

/** How far the page runs off to the side, and which elements do so that no box around them clips or scrolls. */
export const sideways = () => {
  const room = document.documentElement.clientWidth;
  const boxed = (element) => element !== document.body
    && (getComputedStyle(element).overflowX !== 'visible' || boxed(element.parentElement));
  const wide = [...document.body.querySelectorAll('*')]
    .filter((element) => element.checkVisibility() && element.getBoundingClientRect().right > room + 1 && !boxed(element));
  return {
    over: document.documentElement.scrollWidth - room,
    wide: wide.map((element) => `<${element.localName} class="${element.getAttribute('class')}">`).slice(0, 5),
  };
};

/** What it gives for a page that stays within its screen. */
export const still = { over: 0, wide: [] };

/** In the browser: a style of the test's own, where the policy of the pages lets none in. An empty one takes it away. */
export const restyle = (text) => {
  const style = new CSSStyleSheet();
  style.replaceSync(text);
  document.adoptedStyleSheets = [style];
};
