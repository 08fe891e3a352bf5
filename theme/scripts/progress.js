/* The sheet of progress: what the record says of each objective; saving the record to a file and taking it from one. */
(() => {
  'use strict';

  const { say, make, ask, record, kept, due } = window.SEATWORK;
  const root = document.documentElement;
  const KIND = 'progress';
  const LARGEST = 1_000_000;
  const status = document.querySelector('[data-progress-status]');
  const rows = [...document.querySelectorAll('[data-objective]')].map((row) => ({
    row,
    recipes: [...row.querySelectorAll('[data-listed]')].map((item) => ({ item, id: item.dataset.listed })),
  }));
  const day = new Intl.DateTimeFormat(root.lang, { dateStyle: 'medium' });

  const sum = (entries, name) => entries.reduce((total, entry) => total + entry[name], 0);

  /* When a recipe that was tried comes again. */
  const when = (entry) => {
    if (!entry) return '';
    return record.isDue(entry) ? say('progress.due_now') : say('progress.due_on', { day: day.format(new Date(entry.due)) });
  };

  const show = () => {
    const { recipes, level } = record.read();
    rows.forEach(({ row, recipes: listed }) => {
      const entries = listed.map(({ id }) => recipes[id]).filter(Boolean);
      row.querySelector('[data-tried]').textContent = sum(entries, 'tried');
      row.querySelector('[data-clean]').textContent = sum(entries, 'clean');
      row.querySelector('[data-due]').textContent = due(listed).length;
      listed.forEach(({ item, id }) => { item.querySelector('[data-when]').textContent = when(recipes[id]); });
    });
    const all = Object.values(recipes);
    document.querySelector('[data-all]').textContent = say('progress.all', {
      tried: sum(all, 'tried'), clean: sum(all, 'clean'), due: all.filter(record.isDue).length,
    });
    document.querySelectorAll('[data-level-shown]').forEach((line) => {
      line.hidden = line.dataset.levelShown !== String(level.now);
    });
    document.querySelector('[data-level-fixed]').hidden = !level.fixed;
  };

  const { site } = root.dataset;

  const save = () => {
    const text = JSON.stringify({ seatwork: KIND, format: record.FORMAT, site, record: record.read() }, null, 1);
    const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
    const link = make('a', { href: address, download: `${site}-${KIND}.json` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
    status.textContent = say('progress.saved', { file: link.download });
  };

  /* What is wrong with a file that was chosen, in words; nothing if it is ours and complete. */
  const refusal = (found) => {
    if (!kept.isObject(found) || found.seatwork !== KIND) return say('progress.not_ours');
    if (Number.isInteger(found.format) && found.format > record.FORMAT) return say('progress.newer');
    if (found.site !== site) return say('progress.other_course');
    return found.format === record.FORMAT && record.isRecord(found.record) ? null : say('progress.broken');
  };

  const refuse = (file, reason) => { status.textContent = say('progress.refused', { file, reason }); };

  const take = (found, file) => {
    if (record.write(found)) status.textContent = say('progress.loaded', { file, tried: sum(Object.values(found.recipes), 'tried') });
    else refuse(file, say('progress.no_room'));
  };

  /* What is here already is not overwritten without asking. */
  const load = (text, file) => {
    const found = kept.parsed(text);
    const refused = refusal(found);
    if (refused) {
      refuse(file, refused);
      return;
    }
    const here = sum(Object.values(record.read().recipes), 'tried');
    if (here === 0) take(found.record, file);
    else {
      ask({
        title: say('progress.replace_title'), text: say('progress.replace_text', { tried: here }),
        keep: say('progress.replace_keep'), confirm: say('progress.replace'),
      }, () => take(found.record, file));
    }
  };

  const chooser = document.querySelector('[data-load]');
  chooser.addEventListener('change', async () => {
    const [file] = chooser.files;
    if (!file) return;
    /* The same file may be chosen again. */
    const text = file.size > LARGEST ? '' : await file.text().catch(() => '');
    chooser.value = '';
    load(text, file.name);
  });
  document.querySelector('[data-save]').addEventListener('click', save);
  ['seatwork:record', 'seatwork:cleared'].forEach((name) => document.addEventListener(name, show));
  document.addEventListener('seatwork:cleared', () => { status.textContent = ''; });
  show();
})();
