// A course with one question of each form, and how each is answered: by keys alone and by clicks alone. Answers are the
// texts in which they cross to the calculation core.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { draw, published, top } from './product.mjs';
import { alive, offline } from './sheet.mjs';

const course = join(top, 'tests', 'browser', 'course');
export const folder = published(course);
export const SEED = 48213;

export const addressOf = (page) => pathToFileURL(join(folder, page)).href;
export const drawn = (recipe, seed = SEED, units = 'us') => draw(recipe, seed, units, course);

/** A context for the pages of this course. */
export const context = (t, options = {}) => offline(t, options, folder);

/** Opens a page of this course. */
export async function visit(t, page, options = {}) {
  const sheet = await (await context(t, options)).newPage();
  await sheet.goto(addressOf(page));
  return sheet;
}

/** Opens exactly one problem on the page of its recipe, in a sheet that is there or in a new one. */
export async function problemOf(t, recipe, seed = SEED, sheet = null) {
  const opened = sheet ?? await (await context(t)).newPage();
  await opened.goto(`${addressOf(`en/practice/${recipe}.html`)}?p=${recipe}&no=${seed}&units=us`);
  return { sheet: opened, block: await alive(opened, recipe), part: drawn(recipe, seed).parts[0] };
}

/** Presses Tab until what has the focus matches; comes round the page once. */
export async function tabTo(sheet, selector, most = 300) {
  for (let count = 0; count < most; count += 1) {
    if (await sheet.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
    await sheet.keyboard.press('Tab');
  }
  assert.fail(`the keyboard never reaches ${selector}`);
}

const press = async (sheet, key, times) => {
  for (let count = 0; count < times; count += 1) await sheet.keyboard.press(key);
};

/** Chooses among radio buttons: the first takes Space, the others are reached by arrows. */
async function radioByKeys(sheet, within, ids, wanted) {
  await tabTo(sheet, `${within} input[type="radio"]`);
  await sheet.keyboard.press('Space');
  await press(sheet, 'ArrowDown', ids.indexOf(wanted));
}

const ids = (list) => list.map((each) => each.id);
const pairs = (answer) => answer.split(' ').map((pair) => pair.split('='));

const where = (sheet, item) => sheet.locator('.order > li').evaluateAll(
  (rows, wanted) => rows.findIndex((row) => row.dataset.item === wanted), item);

/** Brings the items into an order, from the first place on; `up` moves one item a place up. */
async function sorted(sheet, answer, up) {
  for (const [place, item] of answer.split(' ').entries()) {
    for (let at = await where(sheet, item); at > place; at -= 1) await up(item);
  }
}

export const byKeys = {
  async number(sheet, part, answer) {
    await tabTo(sheet, '.part input');
    await sheet.keyboard.type(answer);
  },
  one_of: (sheet, part, answer) => radioByKeys(sheet, '.part', ids(part.options), answer),
  async several_of(sheet, part, answer) {
    for (const id of ids(part.options).filter((each) => answer.split(' ').includes(each))) {
      await tabTo(sheet, `.part input[value="${id}"]`);
      await sheet.keyboard.press('Space');
    }
  },
  in_order: (sheet, part, answer) => sorted(sheet, answer, async (item) => {
    await tabTo(sheet, `[data-item="${item}"] button:first-child`);
    await sheet.keyboard.press('Enter');
  }),
  async match(sheet, part, answer) {
    for (const [item, partner] of pairs(answer)) {
      await tabTo(sheet, `select[data-item="${item}"]`);
      await press(sheet, 'ArrowDown', ids(part.partners).indexOf(partner) + 1);
    }
  },
  point_at: (sheet, part, answer) => radioByKeys(sheet, '.point-list', ids(part.options), answer),
  async true_or_false(sheet, part, answer) {
    const [truth, reason] = answer.split(' ');
    await radioByKeys(sheet, '.claim-truth', ['true', 'false'], truth);
    await radioByKeys(sheet, '.claim-reasons', ids(part.reasons), reason);
  },
};

const chosen = (block, value) => block.locator(`.choice:has(input[value="${value}"]) span:last-child`).click();

export const byClicks = {
  /* A number takes a click into its field, and then keys. */
  async number(block, part, answer) {
    await block.locator('.part input').click();
    await block.page().keyboard.type(answer);
  },
  one_of: (block, part, answer) => chosen(block, answer),
  async several_of(block, part, answer) {
    for (const id of answer.split(' ')) await chosen(block, id);
  },
  in_order: (block, part, answer) => sorted(block.page(), answer, (item) =>
    block.locator(`[data-item="${item}"] button`).first().click()),
  async match(block, part, answer) {
    for (const [item, partner] of pairs(answer)) await block.locator(`select[data-item="${item}"]`).selectOption(partner);
  },
  /* The cells of a table are answered each by its own text. */
  async fill_table(block, part, cells) {
    for (const { label, exact } of cells) {
      const cell = block.locator('td', { has: block.page().locator(`input[aria-label^="${label},"]`) });
      if (exact.startsWith('not measured')) await cell.locator('select').selectOption(exact);
      else await cell.locator('input').fill(exact);
    }
  },
  point_at: (block, part, answer) => block.locator(`:is(.fig-balloon[data-part="${answer}"] text, .fig-area[data-part="${answer}"])`).last().click(),
  async true_or_false(block, part, answer) {
    for (const value of answer.split(' ')) await chosen(block, value);
  },
};

/** Answers by clicks and checks; gives the word of the verdict. */
export async function settle(block, part, answer) {
  await byClicks[part.form](block, part, answer);
  await block.locator('.action-main').click();
  return block.locator('.verdict-word').first().textContent();
}
