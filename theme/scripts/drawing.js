/* Puts a drawing from a problem into the page, under ids of its own: the same drawing may stand there more than once. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { rich, fresh } = SEATWORK;
  const LISTS = ['aria-labelledby', 'aria-describedby'];

  SEATWORK.drawing = (svg) => {
    const box = rich('div', { class: 'figure-drawing' }, svg);
    const stem = fresh('drawing');
    const names = new Map([...box.querySelectorAll('[id]')].map(({ id }) => [id, `${stem}-${id}`]));
    const name = (id) => names.get(id) || id;
    /* The core writes numbers in drawings with a point. */
    if (document.documentElement.dataset.decimalMark === ',') {
      const texts = document.createTreeWalker(box, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) texts.currentNode.data = texts.currentNode.data.replace(/(\d)\.(?=\d)/g, '$1,');
    }
    const renamed = (attribute, text) => {
      if (attribute === 'id') return name(text);
      if (LISTS.includes(attribute)) return text.split(' ').map(name).join(' ');
      if (text.startsWith('#')) return `#${name(text.slice(1))}`;
      return text.replace(/url\(#([^)]+)\)/g, (all, id) => `url(#${name(id)})`);
    };
    box.querySelectorAll('*').forEach((element) => [...element.attributes].forEach((attribute) => {
      const text = renamed(attribute.localName, attribute.value);
      if (text !== attribute.value) attribute.value = text;
    }));
    return box;
  };
})();
