// The outside judge of what pages owe to people who use them differently.
import axe from 'axe-core';

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** In the browser: what the page and its frames break. `preload` would fetch style sheets, which files do not allow. */
const judged = async (runOnly) => {
  /* On a phone the bar at the bottom lies over whatever is there just now; that focus never ends under it is tried elsewhere. */
  document.querySelectorAll('.turn').forEach((bar) => { bar.style.position = 'static'; });
  /* What is well is only counted: telling of it takes longer than finding what is not. */
  const { violations: found, passes } = await window.axe.run(document, { runOnly, preload: false, resultTypes: ['violations'] });
  return { found, passed: passes.length };
};

/** What the page breaks, with the places; of some rules alone where they are named. */
export async function violations(page, rules = null) {
  for (const frame of page.frames()) {
    if (!await frame.evaluate(() => Boolean(window.axe))) await frame.evaluate(axe.source);
  }
  const { found, passed } = await page.evaluate(judged, rules ? { type: 'rule', values: rules } : { type: 'tag', values: TAGS });
  if (passed === 0) throw new Error('the judge looked at nothing');
  return found.map(({ id, nodes }) => ({
    id,
    places: nodes.map((node) => `${node.target.join(' ')} · ${node.failureSummary.split('\n').slice(1).join(' ').trim()}`),
  }));
}
