// The outside judge of what pages owe to people who use them differently.
import { AxeBuilder } from '@axe-core/playwright';

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/**
 * What the page breaks, with the places; of some rules alone where they are named. `preload` would fetch style sheets,
 * which files do not allow.
 */
export async function violations(page, rules = null) {
  /* On a phone the bar at the bottom lies over whatever is there just now; that focus never ends under it is tried elsewhere. */
  await page.evaluate(() => document.querySelectorAll('.turn').forEach((bar) => { bar.style.position = 'static'; }));
  const builder = new AxeBuilder({ page }).options({ preload: false });
  if (rules) builder.withRules(rules);
  else builder.withTags(TAGS);
  const { violations: found } = await builder.analyze();
  return found.map(({ id, nodes }) => ({
    id,
    places: nodes.map((node) => `${node.target.join(' ')} · ${node.failureSummary.split('\n').slice(1).join(' ').trim()}`),
  }));
}
