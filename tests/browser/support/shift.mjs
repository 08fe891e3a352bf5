// What moves on a page by itself. The engine is held back until the page has been painted, so that what it brings comes
// into a page that somebody is reading already.

/** Whether a page has been painted. */
export const painted = () => performance.getEntriesByName('first-contentful-paint').length > 0;

/** Holds back the engine on the pages of a sheet until a page has been painted, or until something else holds on it. */
export const holdEngine = (sheet, until = painted) => sheet.route('**/engine-module.js', async (route) => {
  await sheet.waitForFunction(until);
  await route.continue();
});

/** Reads a page to its end, a quarter of the screen at a time; gives what moved in sight, and how far down that was. */
export const movedWhileRead = (sheet) => sheet.evaluate(async () => {
  const frames = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const moved = [];
  const note = (entries) => moved.push(...entries.map(({ value, sources }) => {
    const what = sources.map(({ node }) => (node ? `<${node.nodeName.toLowerCase()} class="${node.className}">` : 'what is gone'));
    return `${value} at ${Math.round(scrollY)} px: ${what.join(', ')}`;
  }));
  const watch = new PerformanceObserver((list) => note(list.getEntries()));
  watch.observe({ type: 'layout-shift', buffered: true });
  await frames();
  for (let before = -1; scrollY > before;) {
    before = scrollY;
    scrollBy({ top: innerHeight / 4, behavior: 'instant' });
    await frames();
  }
  note(watch.takeRecords());
  return moved;
});
