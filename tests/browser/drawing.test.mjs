// The same number gives the same problem on the page and from the command.
import assert from 'node:assert/strict';
import test from 'node:test';
import { draw, markup, plain, someRecipes } from './support/product.mjs';
import { alive, offline, problem } from './support/sheet.mjs';

const SEEDS = [10000, 99999];

/** The problem as it stands on the page. */
const shown = (block) => block.evaluate((element) => {
  const text = (node) => node.textContent.trim();
  const all = (within, selector) => [...within.querySelectorAll(selector)];
  return {
    statement: element.querySelector('.practice-statement').innerHTML,
    givens: all(element, '.practice-statement .given').map(text),
    parts: all(element, '.part').map((part) => ({
      label: text(part.querySelector('.part-label, legend')),
      choices: [
        ...all(part, '.choice:not(.claim-truth *)').map((choice) => [
          choice.querySelector('input').value, choice.querySelector('span:last-child').innerHTML,
        ]),
        ...all(part, '[data-item] .order-text').map((item) => [item.closest('li').dataset.item, item.innerHTML]),
        ...all(part, '.match-items > li').map((item) => [
          item.querySelector('select').dataset.item, item.querySelector('label').innerHTML,
        ]),
        ...all(part, '.match-partners > li').map((partner, place) => [
          part.querySelector('select').options[place + 1].value, partner.innerHTML,
        ]),
      ],
      drawn: part.querySelector('.figure-drawing > svg') !== null,
      statement: part.querySelector('.claim')?.innerHTML ?? null,
    })),
  };
});

/** The same of a part as the command draws it. */
const wanted = ({ label, options = [], items = [], partners = [], reasons = [], figure, statement }) => ({
  label,
  choices: [...options, ...items, ...partners, ...reasons].map(({ id, html }) => [id, markup(html)]),
  drawn: Boolean(figure),
  statement: statement ? markup(statement) : null,
});

/** A plot that several parts are read off stands above the first of them alone. */
const once = (parts) => parts.map((part, place) => {
  const same = (other) => part.figure?.rows.length > 0 && JSON.stringify(other.figure?.rows) === JSON.stringify(part.figure.rows);
  return parts.slice(0, place).some(same) ? { ...part, figure: null } : part;
});

let alike = 0;

for (const recipe of someRecipes) {
  test(`${recipe}: statement, givens and choices are those of the command`, async (t) => {
    const sheet = await (await offline(t)).newPage();
    for (const units of ['us', 'si']) {
      const statements = new Set();
      let draws = false;
      for (const seed of SEEDS) {
        const drawn = draw(recipe, seed, units);
        await sheet.goto(problem(recipe, seed, units));
        const seen = await shown(await alive(sheet, recipe));
        const place = `${recipe} ${seed} ${units}`;
        assert.equal(seen.statement.trim(), markup(drawn.statement_html), place);
        const texts = drawn.givens.map((given) => plain(given.text));
        for (const given of seen.givens) assert.ok(texts.includes(plain(given)), `${place}: ${given}`);
        assert.deepEqual(seen.parts, once(drawn.parts).map(wanted), place);
        statements.add(seen.statement);
        draws ||= seen.givens.length > 0;
      }
      // Some questions say the same every time, and only the order of their choices is drawn.
      if (draws && statements.size === 1) alike += 1;
    }
  });
}

test('another number gives another problem, but for chance', () => {
  assert.ok(alike < someRecipes.length / 4, `${alike} statements alike`);
});
