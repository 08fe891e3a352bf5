// Each form of question, right, partly right and wrong, by keys alone and by clicks alone.
import assert from 'node:assert/strict';
import test from 'node:test';
import { fill, plain, words } from './support/product.mjs';
import { SEED, byClicks, byKeys, context, drawn, problemOf, settle, tabTo, visit } from './support/forms.mjs';
import { violations } from './support/axe.mjs';

const { verdicts, notes, practice, working, order } = words.live;

/** Answers by the recipe: the text that crosses, the name of the verdict, the credit where it is a part, and a reason. */
const CASES = {
  one: [['0', 'right', 100, 'Set pressure minus'], ['1', 'wrong_option', 0, 'the whole reseating pressure']],
  several: [['0 1', 'right', 100, 'More preload.'], ['0', 'partly_several', 50], ['2 3', 'wrong_choices', 0, 'acts when the valve flows']],
  order: [['0 1 2 3', 'right', 100], ['0 1 3 2', 'partly_order', 66, 'The seal comes last'], ['3 2 1 0', 'wrong_sequence', 0]],
  pairs: [['0=0 1=1 2=2', 'right', 100], ['0=0 1=1 2=3', 'partly_match', 55, 'carries no force'], ['0=1 1=2 2=0', 'wrong_pairs', 0]],
  point: [['adjusting_screw', 'right', 100, 'sets the preload'], ['spring', 'wrong_part', 0, 'does not set it'], ['cap', 'wrong_part', 0, 'does not press']],
  claim: [['false 0', 'right', 100, 'adds to the force'], ['false 1', 'wrong_reason', 0, 'acts against'], ['true 0', 'wrong_truth', 0]],
  trace: [['84', 'right', 100], ['76', 'mistake', 0, 'it closed again'], ['5', 'wrong', 0]],
  rounded: [['2.25', 'right', 100], ['2.275', 'rounding', 50], ['9', 'wrong', 0, fill(notes.unusual, { low: '1 turn', high: '5 turns' })]],
};

async function judged(block, [, name, credit, reason]) {
  const says = plain(await block.locator('.verdict-says').textContent());
  const seen = verdicts[name] ?? assert.fail(name);
  assert.ok(says.startsWith(seen.word), `${name}: ${says}`);
  if (reason) assert.ok(says.includes(plain(reason)), `${name}: ${says}`);
  const share = credit === 50 ? notes.half : fill(notes.credit, { credit });
  assert.equal(says.includes(share), credit > 0 && credit < 100, says);
  assert.ok(!/\{\w+\}/.test(says), says);
}

for (const [recipe, cases] of Object.entries(CASES)) {
  for (const each of cases) {
    test(`${recipe}: ${each[1]} by keys alone`, async (t) => {
      const { sheet, block, part } = await problemOf(t, recipe);
      await byKeys[part.form](sheet, part, each[0]);
      await tabTo(sheet, 'button.action-main');
      await sheet.keyboard.press('Enter');
      await judged(block, each);
    });
    test(`${recipe}: ${each[1]} by clicks alone`, async (t) => {
      const { block, part } = await problemOf(t, recipe);
      await settle(block, part, each[0]);
      await judged(block, each);
    });
  }

  test(`${recipe}: what was answered is there again after a reload`, async (t) => {
    const { sheet, block, part } = await problemOf(t, recipe);
    const [[answer]] = cases;
    await byClicks[part.form](block, part, answer);
    await sheet.reload();
    await block.locator('form').waitFor();
    await block.locator('.action-main').click();
    assert.equal(await block.locator('.verdict-word').textContent(), verdicts.right.word);
  });
}

test('nothing chosen is said to be nothing chosen, in the words of the form', async (t) => {
  for (const [recipe, name] of [['one', 'blank_option'], ['several', 'blank_several'], ['pairs', 'blank_match'],
    ['point', 'blank_point'], ['claim', 'blank_claim'], ['rounded', 'blank']]) {
    const { block } = await problemOf(t, recipe);
    await block.locator('.action-main').click();
    const says = plain(await block.locator('.verdict-says').textContent());
    assert.equal(says, plain(`${verdicts[name].word}${verdicts[name].text}`), recipe);
  }
});

test('a claim without its reason is not marked yet', async (t) => {
  const { block } = await problemOf(t, 'claim');
  await block.locator('.claim-truth input').first().check();
  await block.locator('.action-main').click();
  assert.equal(await block.locator('.verdict-word').textContent(), verdicts.blank_claim.word);
});

test('Enter checks from a checkbox and from a radio button', async (t) => {
  for (const recipe of ['several', 'point']) {
    const { sheet, block, part } = await problemOf(t, recipe);
    await byKeys[part.form](sheet, part, CASES[recipe][0][0]);
    await sheet.keyboard.press('Enter');
    assert.equal(await block.locator('.verdict-word').textContent(), verdicts.right.word, recipe);
  }
});

test('an item that moves keeps the focus on its button, and its place is said', async (t) => {
  const { sheet, block, part } = await problemOf(t, 'order');
  const first = block.locator('.order > li').first();
  const item = await first.getAttribute('data-item');
  const text = plain(await first.locator('.order-text').textContent());
  const down = `[data-item="${item}"] button:last-child`;
  const said = block.locator('fieldset [role="status"]');
  await tabTo(sheet, down);
  for (let place = 2; place <= part.items.length; place += 1) {
    await sheet.keyboard.press('Space');
    assert.ok(await sheet.locator(down).evaluate((button) => button === document.activeElement));
    assert.equal(plain(await said.textContent()), fill(order.moved, { item: text, place, of: part.items.length }));
  }
  assert.equal(await sheet.locator(down).getAttribute('aria-disabled'), 'true');
  await sheet.keyboard.press('Space');
  assert.equal(await block.locator('.order > li').last().getAttribute('data-item'), item);
});

test('the drawing and its list are in step, from either side', async (t) => {
  const { block, part } = await problemOf(t, 'point');
  const pointed = () => block.locator('.pointed').evaluateAll((all) => [...new Set(all.map((one) => one.dataset.part))]);
  for (const { id } of part.options) {
    await byClicks.point_at(block, part, id);
    assert.ok(await block.locator(`input[value="${id}"]`).isChecked(), id);
    assert.deepEqual(await pointed(), [id]);
  }
  for (const { id } of part.options) {
    await block.locator(`input[value="${id}"]`).check();
    assert.deepEqual(await pointed(), [id]);
  }
});

test('a part is pointed at where it is drawn, not only by its number', async (t) => {
  const { sheet, block, part } = await problemOf(t, 'point');
  await block.locator('.pointing').evaluate((drawing) => drawing.scrollIntoView({ block: 'center', behavior: 'instant' }));
  const reachable = await block.locator('.pointing').evaluate((drawing) => {
    const places = {};
    const box = drawing.getBoundingClientRect();
    for (let y = Math.max(box.top, 0); y < Math.min(box.bottom, innerHeight); y += 2) {
      for (let x = box.left; x < box.right; x += 2) {
        const group = document.elementFromPoint(x, y)?.closest('[data-part]:not(.fig-balloon)');
        if (group) (places[group.dataset.part] ??= []).push([x, y]);
      }
    }
    return places;
  });
  const bare = part.options.map(({ id }) => id).filter((id) => (reachable[id] ?? []).length < 3);
  assert.deepEqual(bare, []);
  for (const { id } of part.options) {
    const places = reachable[id];
    await sheet.mouse.click(...places[Math.floor(places.length / 2)]);
    assert.ok(await block.locator(`input[value="${id}"]`).isChecked(), id);
  }
});

test('a later part that goes on rightly from an earlier slip earns the way', async (t) => {
  const { block } = await problemOf(t, 'chain');
  const [allowed, highest] = drawn('chain').answers;
  const slip = parseFloat(allowed.exact) * 0.5;
  const carried = parseFloat(highest.exact) - slip;
  await block.getByLabel(allowed.label, { exact: true }).fill(slip.toPrecision(5));
  await block.getByLabel(highest.label, { exact: true }).fill(carried.toPrecision(6));
  await block.locator('.action-main').click();
  const wordsSaid = await block.locator('.verdict-word').allTextContents();
  assert.equal(wordsSaid[1], verdicts.carried.word);
  assert.equal(await block.locator('.practice-total').textContent(), fill(practice.total, { credit: 25 }));
});

test('an answer on the unsafe side fails the whole, where the recipe says so', async (t) => {
  const { block } = await problemOf(t, 'chain');
  const [allowed, highest] = drawn('chain').answers;
  await block.getByLabel(allowed.label, { exact: true }).fill((parseFloat(allowed.exact) * 1.004).toPrecision(5));
  await block.getByLabel(highest.label, { exact: true }).fill(highest.shown.replace('\u00a0', ' '));
  await block.locator('.action-main').click();
  assert.equal(await block.locator('.practice-total').textContent(), practice.failed);
});

test('the working comes line by line, and whole on demand', async (t) => {
  const { sheet, block } = await problemOf(t, 'chain');
  await block.getByRole('button', { name: practice.working }).click();
  const reveal = block.locator('.practice-reveal');
  const lines = () => reveal.locator('.step:visible, [aria-live] > div > p:visible, .practice-answers:visible').count();
  const all = await reveal.locator('.step, [aria-live] > div > p, .practice-answers').count();
  assert.ok(all >= 3, `${all} lines`);
  for (let count = 1; count < all; count += 1) {
    assert.equal(await lines(), count);
    await reveal.getByRole('button', { name: working.next }).click();
  }
  assert.equal(await lines(), all);
  assert.equal(await reveal.getByRole('button').count(), 0);
  assert.ok(await sheet.evaluate(() => document.activeElement.matches('.practice-answers')), 'the focus is on the last line');
  await block.getByRole('button', { name: practice.working }).click();
  await block.getByRole('button', { name: practice.working }).click();
  await reveal.getByRole('button', { name: working.all }).click();
  assert.equal(await lines(), all);
});

test('a plot is there as a list too, from which the value can be taken', async (t) => {
  const { block, part } = await problemOf(t, 'trace');
  await block.getByText(words.live.figure.rows, { exact: true }).click();
  const cells = await block.locator('.part-rows tbody tr').evaluateAll((rows) =>
    rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
  assert.deepEqual(cells, part.figure.rows);
  assert.ok(cells.some(([, pressure]) => parseFloat(pressure) === 84));
});

test('how to round stands beside the field and is read out with it', async (t) => {
  const { sheet, block } = await problemOf(t, 'rounded');
  const described = (await block.locator('.part input').getAttribute('aria-describedby')).split(' ');
  const texts = await Promise.all(described.map((id) => sheet.locator(`#${id}`).textContent()));
  assert.ok(texts.includes(fill(words.live.round.nearest, { to: '1/4\u00a0turn' })), texts.join('|'));
});

test('a check is answered within a frame', async (t) => {
  const times = [];
  for (const recipe of Object.keys(CASES)) {
    const { block, part } = await problemOf(t, recipe);
    await byClicks[part.form](block, part, CASES[recipe][0][0]);
    const took = await block.evaluate((element) => {
      const form = element.querySelector('form');
      const all = [];
      for (let count = 0; count < 10; count += 1) {
        const start = performance.now();
        form.requestSubmit();
        element.getBoundingClientRect();
        all.push(performance.now() - start);
      }
      return all.sort((one, other) => one - other)[5];
    });
    times.push(`${recipe} ${took.toFixed(1)} ms`);
    assert.equal(await block.locator('.verdict-word').textContent(), verdicts.right.word);
  }
  t.diagnostic(times.join(', '));
});

test('without scripts each form has its question, its blanks, and its answer on demand', async (t) => {
  for (const recipe of [...Object.keys(CASES), 'chain', RECORD]) {
    const sheet = await visit(t, `en/practice/${recipe}.html`, { javaScriptEnabled: false });
    const sample = sheet.locator('.practice-sample:visible');
    const seed = /No\. (\d+)/.exec(await sheet.locator('.practice-number').textContent())[1];
    const { parts } = drawn(recipe, seed);
    const text = plain(await sample.textContent());
    for (const part of parts) {
      const said = [...(part.options ?? []), ...(part.items ?? []), ...(part.partners ?? []), ...(part.reasons ?? [])];
      assert.ok(text.includes(part.label), part.label);
      for (const { html } of said) assert.ok(text.includes(plain(html.replace(/<[^>]*>/g, '').replaceAll('&#39;', "'"))), html);
      assert.equal(await sample.locator('.figure-drawing svg').count() > 0, Boolean(part.figure));
    }
    await sample.locator('summary').last().click();
    assert.ok(await sample.locator('.practice-answers').isVisible());
  }
});

test('each form prints with room to write, and without what only a screen can do', async (t) => {
  const sheet = await (await context(t)).newPage();
  const shown = async (recipe, selector) => {
    const { block } = await problemOf(t, recipe, SEED, sheet);
    await sheet.emulateMedia({ media: 'print' });
    const seen = {
      blanks: await block.locator(selector).evaluateAll((all) => all.filter((one) => one.checkVisibility()).length),
      controls: await block.locator('button:visible, select:visible').count(),
    };
    await sheet.emulateMedia({ media: 'screen' });
    return seen;
  };
  assert.deepEqual(await shown('order', '.order-blank'), { blanks: 4, controls: 0 });
  assert.deepEqual(await shown('pairs', '.match-blank'), { blanks: 3, controls: 0 });
  assert.deepEqual(await shown('rounded', '.part-field input'), { blanks: 1, controls: 0 });
  assert.deepEqual(await shown('point', '.figure-drawing svg'), { blanks: 1, controls: 0 });
  assert.deepEqual(await shown('record', '.record input'), { blanks: 4, controls: 0 });
});

/* A table to fill in: the cells of the seed, a seed at which the second opening was not measured, and one at which it was. */
const RECORD = 'record';
const answersOf = (seed) => new Map(
  drawn(RECORD, seed).answers[0].cells.map((cell) => [cell.id, cell.exact]));
const seedWhere = (lacks) => {
  const is = (seed) => answersOf(seed).get('record.second.off').startsWith('not measured') === lacks;
  return Array.from({ length: 40 }, (each, place) => SEED + place).find(is) ?? assert.fail('no such seed');
};
const cellsOf = (part) => part.rows.flatMap((row) => row.cells).filter((cell) => cell.id);
const unitOf = ({ unit }) => fill(practice.in_unit, { unit });

/** Fills the cells in by keys alone, one after the other as Tab reaches them. */
async function filledIn(sheet, part, typed) {
  for (const cell of cellsOf(part)) {
    const text = typed.get(cell.id);
    await tabTo(sheet, `input[aria-label^="${cell.label},"]`);
    if (!text.startsWith('not measured')) await sheet.keyboard.type(text);
    else {
      await sheet.keyboard.press('Tab');
      const menu = await sheet.evaluate(() => document.activeElement.tagName);
      assert.equal(menu, 'SELECT');
      for (let step = 0; step <= Number(text.at(-1)); step += 1) await sheet.keyboard.press('ArrowDown');
    }
  }
  await tabTo(sheet, 'button.action-main');
  await sheet.keyboard.press('Enter');
}

for (const lacks of [false, true]) {
  test(`a table is filled in by keys alone, ${lacks ? 'also where nothing was measured' : 'and each cell is marked'}`, async (t) => {
    const seed = seedWhere(lacks);
    const { sheet, block, part } = await problemOf(t, RECORD, seed);
    await filledIn(sheet, part, answersOf(seed));
    assert.deepEqual(await block.locator('.verdict-word').allTextContents(), Array(4).fill(verdicts.right.word));
    assert.equal(await block.locator('.practice-total').textContent(), fill(practice.total, { credit: 100 }));
    await sheet.reload();
    await block.locator('form').waitFor();
    await block.locator('.action-main').click();
    assert.deepEqual(await block.locator('.verdict-word').allTextContents(), Array(4).fill(verdicts.right.word), 'kept');
  });
}

test('a cell goes on from the own number in another, and says what it was', async (t) => {
  const seed = seedWhere(false);
  const { sheet, block, part } = await problemOf(t, RECORD, seed);
  const right = answersOf(seed);
  const off = 2 * Number.parseFloat(right.get('record.first.off'));
  const share = 2 * Number.parseFloat(right.get('record.first.share'));
  await filledIn(sheet, part, new Map([...right, ['record.first.off', String(off)], ['record.first.share', String(share)]]));
  const says = await block.locator('.record-verdict:visible').allTextContents();
  assert.equal(says.length, 4);
  assert.ok(plain(says[0]).startsWith(part.columns[1].head), says[0]);
  assert.ok(plain(says[1]).includes(verdicts.carried.word), says[1]);
});

test('a number where nothing was measured is told so, and a reason takes the number away', async (t) => {
  const { block, part } = await problemOf(t, RECORD, seedWhere(true));
  const [, , off] = cellsOf(part);
  const input = block.locator(`input[aria-label^="${off.label},"]`);
  await input.fill('3');
  await block.locator('.action-main').click();
  assert.equal(await block.locator('.verdict-word').textContent(), verdicts.no_reading.word);
  assert.ok(plain(await block.locator('.verdict-says').textContent()).includes('nobody could say when it opened'));
  const menu = block.locator('td:has(input)').nth(2).locator('select');
  await menu.selectOption({ index: 1 });
  assert.equal(await input.inputValue(), '');
  assert.ok(await input.isDisabled());
  await menu.selectOption({ index: 0 });
  assert.ok(await input.isEnabled());
});

test('with half a table filled in only that half is marked, and Enter in a cell checks', async (t) => {
  const seed = seedWhere(false);
  const { sheet, block } = await problemOf(t, RECORD, seed);
  await block.locator('.record input').first().fill(answersOf(seed).get('record.first.off'));
  await sheet.keyboard.press('Enter');
  assert.deepEqual(await block.locator('.verdict-word').allTextContents(), [verdicts.right.word]);
});

test('each cell has a name of its own for those who hear the page, and its verdict is said', async (t) => {
  const { sheet, block, part } = await problemOf(t, RECORD, seedWhere(true));
  for (const cell of cellsOf(part)) {
    const input = block.getByRole('textbox', { name: `${cell.label}, ${unitOf(cell)}`, exact: true });
    assert.equal(await input.count(), 1, cell.label);
    const described = await input.evaluate((each) => each.getAttribute('aria-describedby').split(' ')
      .map((id) => document.getElementById(id)).map((one) => one.getAttribute('role')));
    assert.equal(described.at(-1), 'status');
    const menus = block.getByRole('combobox', { name: fill(words.live.table.which, { cell: cell.label }), exact: true });
    assert.equal(await menus.count(), cell.may_lack ? 1 : 0);
  }
  const heads = await block.locator('th').evaluateAll((all) => all.map((each) => each.scope));
  assert.deepEqual(heads, ['col', 'col', 'col', 'row', 'row']);
  assert.deepEqual(await violations(sheet), []);
});

test('on a narrow phone a table folds into blocks, and nothing scrolls the page sideways', async (t) => {
  for (const viewport of [{ width: 320, height: 640 }, { width: 360, height: 740 }]) {
    const sheet = await (await context(t, { viewport })).newPage();
    const { block, part } = await problemOf(t, RECORD, seedWhere(true), sheet);
    await block.locator('.record input').first().fill('1');
    await block.locator('.action-main').click();
    const fits = await sheet.evaluate(() => {
      const wrap = document.querySelector('.record-wrap');
      return [document.documentElement.scrollWidth <= innerWidth, wrap.scrollWidth <= wrap.clientWidth];
    });
    assert.deepEqual(fits, [true, true]);
    const heads = await block.locator('.record-head:visible').allTextContents();
    assert.equal(heads.length, part.rows.length * part.columns.length);
    for (const control of await block.locator('.record :is(input, select)').all()) {
      const { width, height } = await control.boundingBox();
      assert.ok(width >= 24 && height >= 24, `${width} x ${height}`);
    }
    assert.deepEqual(await violations(sheet), []);
  }
});
