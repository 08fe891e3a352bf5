// Each form of question, right, partly right and wrong, by keys alone and by clicks alone.
import assert from 'node:assert/strict';
import test from 'node:test';
import { fill, plain, words } from './support/product.mjs';
import { SEED, byClicks, byKeys, context, drawn, problemOf, settle, tabTo, visit } from './support/forms.mjs';

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
  rounded: [['2.25', 'right', 100], ['2.275', 'rounding', 50], ['9', 'wrong', 0, fill(notes.not_believable, { low: '1 turn', high: '5 turns' })]],
};

async function judged(block, [, name, credit, reason]) {
  const says = plain(await block.locator('.verdict-says').textContent());
  const seen = verdicts[name] ?? assert.fail(name);
  assert.ok(says.startsWith(seen.word), `${name}: ${says}`);
  if (reason) assert.ok(says.includes(plain(reason)), `${name}: ${says}`);
  assert.equal(says.includes(fill(notes.credit, { credit })), credit > 0 && credit < 100, says);
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
  for (const recipe of [...Object.keys(CASES), 'chain']) {
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
});
