/* The frame while a course is written: shows in the page, and around it, what has changed. */
(() => {
  'use strict';

  const root = document.documentElement;
  const page = document.getElementById('page');
  const list = document.querySelector('.watch-list');
  /* Where the page was scrolled to when it was reloaded, until it is there again. */
  let place = null;

  const attempt = (action) => {
    try {
      return action();
    } catch (refused) {
      return null;
    }
  };

  /* Nothing where the browser shows a page of its own, say because the server has ended. */
  const view = () => attempt(() => page.contentWindow.document && page.contentWindow);

  const address = ({ pathname, search, hash }) => pathname + search + hash;

  /* The page that the address of the window asks for: `#/site/en/lessons/parts.html`. */
  const asked = () => {
    const wanted = location.hash.startsWith('#/') && attempt(() => new URL(location.hash.slice(1), location.origin));
    return wanted && wanted.origin === location.origin && wanted.pathname !== '/' ? address(wanted) : null;
  };

  const open = () => {
    const inner = view();
    if (asked() && (!inner || asked() !== address(inner.location))) page.src = asked();
  };

  const again = () => {
    const inner = view();
    if (!inner) {
      page.src = asked() || page.src;
      return;
    }
    /* While it is still reloading, the place it was scrolled to before counts. */
    place = place || { address: address(inner.location), left: inner.scrollX, top: inner.scrollY };
    inner.location.reload();
  };

  /* What leads out of the site opens beside it: it may not be shown in here. */
  const outwards = (event) => {
    const link = event.target.closest('a[href]');
    if (link && link.origin !== location.origin) link.target = '_blank';
  };

  const look = () => {
    const inner = view();
    if (inner && inner.document.documentElement.dataset.look) {
      root.dataset.look = inner.document.documentElement.dataset.look;
    } else delete root.dataset.look;
  };

  page.addEventListener('load', () => {
    const inner = view();
    if (!inner) return;
    if (place && place.address === address(inner.location)) {
      inner.scrollTo({ left: place.left, top: place.top, behavior: 'instant' });
    }
    place = null;
    history.replaceState(null, '', `#${address(inner.location)}`);
    inner.document.addEventListener('click', outwards);
    inner.addEventListener('hashchange', () => history.replaceState(null, '', `#${address(inner.location)}`));
    look();
  });
  /* What the page keeps shows that another look was chosen. */
  addEventListener('storage', look);
  addEventListener('hashchange', open);

  /* Replaces a part by a new one; what was opened in it stays open, and the focus where it was. */
  const replace = (part, fresh) => {
    if (part.innerHTML === fresh.innerHTML) return;
    const opened = [...part.querySelectorAll('details[open]')].map(({ id }) => id);
    const focused = part.contains(document.activeElement) ? document.activeElement.getAttribute('href') : null;
    part.replaceChildren(...fresh.childNodes);
    opened.forEach((id) => document.getElementById(id)?.setAttribute('open', ''));
    if (focused) [...part.querySelectorAll('a')].find((link) => link.getAttribute('href') === focused)?.focus();
  };

  const around = async () => {
    const answer = await fetch('/');
    const fresh = new DOMParser().parseFromString(await answer.text(), 'text/html');
    for (const part of document.querySelectorAll('[data-part]')) replace(part, fresh.getElementById(part.id));
  };

  const stopped = (text) => {
    const says = document.getElementById('stopped');
    if (says.textContent !== text) says.textContent = text;
  };

  /* Takes over what the server says is shown now: the version of the site and that of all. */
  const take = (versions) => {
    stopped('');
    const [site, all] = versions.split(' ');
    const { siteVersion, version } = root.dataset;
    Object.assign(root.dataset, { siteVersion: site, version: all });
    if (site !== siteVersion) again();
    if (all !== version) around().catch(() => undefined);
  };

  /* Browsers keep only a few connections to one host. One window listens for all; when it is closed, another one does. */
  const channel = new BroadcastChannel('seatwork-watch');
  const tell = (versions) => (versions ? take(versions) : stopped(list.dataset.stopped));
  channel.addEventListener('message', ({ data }) => tell(data));
  const pass = (versions) => {
    channel.postMessage(versions);
    tell(versions);
  };
  navigator.locks.request('seatwork-watch', () => new Promise(() => {
    const events = new EventSource('/watch/events');
    events.addEventListener('message', ({ data }) => pass(data));
    events.addEventListener('error', () => pass(''));
  }));

  list.open = matchMedia('(min-width: 60rem)').matches;
  open();
})();
