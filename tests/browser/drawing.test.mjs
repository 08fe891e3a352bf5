// The same number gives the same problem on the page and from the command.
import assert from 'node:assert/strict';
import test from 'node:test';
import { draw, lessonOf, markup, plain } from './support/product.mjs';
import { alive, offline, problem } from './support/sheet.mjs';

const SEEDS = [10000, 48213, 99999];

/** The problem as it stands on the page. */
const shown = (block) => block.evaluate((element) => {
  const text = (node) => node.textContent.trim();
  const all = (within, selector) => [...within.querySelectorAll(selector)];
  return {
    statement: element.querySelector('.practice-statement').innerHTML,
    givens: all(element, '.practice-statement .given').map(text),
    parts: all(element, '.part').map((part) => ({
      label: text(part.querySelector('.part-label, legend')),
      options: all(part, '.choice').map((choice) => ({
        id: choice.querySelector('input').value, html: choice.querySelector('span').innerHTML,
      })),
    })),
  };
});

for (const recipe of lessonOf.keys()) {
  test(`${recipe}: statement, givens and options are those of the command`, async (t) => {
    const sheet = await (await offline(t)).newPage();
    for (const units of ['us', 'si']) {
      const statements = new Set();
      for (const seed of SEEDS) {
        const drawn = draw(recipe, seed, units);
        await sheet.goto(problem(recipe, seed, units));
        const seen = await shown(await alive(sheet, recipe));
        const place = `${recipe} ${seed} ${units}`;
        assert.equal(seen.statement.trim(), markup(drawn.statement_html), place);
        const texts = drawn.givens.map((given) => plain(given.text));
        for (const given of seen.givens) assert.ok(texts.includes(plain(given)), `${place}: ${given}`);
        for (const [index, part] of drawn.parts.entries()) {
          const options = (part.options ?? []).map(({ id, html }) => ({ id, html: markup(html) }));
          assert.deepEqual(seen.parts[index], { label: part.label, options }, place);
        }
        assert.equal(seen.parts.length, drawn.parts.length, place);
        statements.add(seen.statement);
      }
      assert.ok(statements.size > 1, `${recipe} ${units}: every number gives the same problem`);
    }
  });
}
