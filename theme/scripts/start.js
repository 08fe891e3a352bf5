/* Runs before the page is drawn: what was chosen on this device, and the only access to what is kept on it. */
(() => {
  'use strict';

  const root = document.documentElement;
  const prefix = `seatwork/${root.dataset.site}/v1/`;

  /* Private windows and full disks refuse storage; the page then works without remembering. */
  const attempt = (action, otherwise) => {
    try {
      return action();
    } catch (refused) {
      return otherwise;
    }
  };

  const get = (key) => attempt(() => localStorage.getItem(prefix + key), null);
  /* Whether it was kept. If not, what was there before remains. */
  const set = (key, value) => attempt(() => {
    localStorage.setItem(prefix + key, value);
    return true;
  }, false);

  /* Deletes what this course keeps. Pages opened from a file share one storage, so the rest is left alone. */
  const clear = () => attempt(() => {
    const ours = [];
    for (let index = 0; index < localStorage.length; index += 1) {
      const key = localStorage.key(index);
      if (key.startsWith(prefix)) ours.push(key);
    }
    ours.forEach((key) => localStorage.removeItem(key));
  }, undefined);

  const asked = new URLSearchParams(location.search);
  const system = (text) => (text === 'us' || text === 'si' ? text : null);
  const look = (text) => (text === 'paper' || text === 'blueprint' ? text : null);

  /* Applies what was chosen. */
  const begin = () => {
    root.dataset.units = system(get('units')) || root.dataset.courseUnits;
    const kept = look(get('look'));
    if (kept) root.dataset.look = kept;
    else delete root.dataset.look;
  };

  begin();
  /* An address that names a problem also names its units; they hold until others are chosen and are not kept. */
  root.dataset.units = system(asked.get('units')) || root.dataset.units;
  root.dataset.live = '';
  /* The sheet of practice has room for a session that was begun before it is there. */
  if (get('session')) root.dataset.practising = 'again';
  window.SEATWORK = { prefix, get, set, clear, asked, begin };
})();
