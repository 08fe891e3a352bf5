// Without scripts the lesson, the samples and the calculators stand as they were published.
import assert from 'node:assert/strict';
import test from 'node:test';
import { draw, lessonOf, markup, kinds, pageOf, work, someRecipes } from './support/product.mjs';
import { open } from './support/sheet.mjs';

const unscripted = { javaScriptEnabled: false };

test('every page stands and offers nothing that needs a script', async (t) => {
  for (const page of kinds) {
    const sheet = await open(t, page, unscripted);
    assert.ok(await sheet.locator('h1').isVisible(), page);
    assert.equal(await sheet.locator('.needs-script:visible').count(), 0, page);
    assert.equal(await sheet.locator('button:visible').count(), 0, page);
  }
});

for (const [recipe, page] of [...lessonOf].filter(([id]) => someRecipes.includes(id))) {
  test(`${recipe}: the sample has its question in the lesson, and its answer on demand on its own sheet`, async (t) => {
    const sheet = await open(t, page, unscripted);
    const block = sheet.locator(`.practice[data-recipe="${recipe}"]`);
    const sample = block.locator('.practice-sample');
    const seed = /No\. (\d+)/.exec(await block.locator('.practice-number').textContent())[1];
    const drawn = draw(recipe, seed, 'us');
    const statement = async () => (await sample.locator('.practice-statement').innerHTML()).trim();
    assert.equal(await statement(), markup(drawn.statement_html));
    await sample.locator('.practice-whole a').click();
    assert.ok(sheet.url().endsWith(pageOf(recipe)));
    assert.equal(await statement(), markup(drawn.statement_html));
    const answers = sample.locator('.practice-answers');
    assert.ok(await answers.isHidden());
    await sample.locator('summary').last().click();
    assert.ok(await answers.isVisible());
    for (const [place, { label, shown }] of drawn.answers.entries()) {
      const row = answers.locator(':scope > div').nth(place);
      assert.equal((await row.locator('dt').textContent()).trim(), label);
      assert.equal((await row.locator('dd').first().innerHTML()).trim(), markup(shown));
    }
    assert.ok((await sample.locator('.practice-reveal').last().innerText()).length > 100);
  });
}

test('a calculator shows its figures and its result, and takes no others', async (t) => {
  const sheet = await open(t, lessonOf.get('seat_force'), unscripted);
  const block = sheet.locator('.work[data-relation="opening_force"]');
  const row = async (name) => {
    const input = block.locator(`[data-input="${name}"]`);
    assert.ok(!(await input.locator('.work-value').isEditable()));
    return `${await input.locator('.work-value').inputValue()} ${await input.locator('.work-unit').inputValue()}`;
  };
  const given = { opening: await row('opening'), area: await row('area') };
  const { shown } = work('opening_force', given, await block.locator('.work-result-unit').inputValue());
  assert.equal(await block.locator('output').textContent(), shown);
});
