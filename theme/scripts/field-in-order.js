/* The field of in_order: a list whose items move up and down by buttons; each new place is announced politely. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, draw, rich, button } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  const arrow = (path) => draw('svg', { viewBox: '0 0 24 24', 'aria-hidden': 'true' }, draw('path', { d: path }));
  const UP = 'M12 20V4M5 11l7-7 7 7';
  const DOWN = 'M12 4v16M5 13l7 7 7-7';

  const startOrder = (items, kept) => {
    const places = kept.split(' ');
    const known = items.map((item) => item.id);
    const whole = places.length === known.length && known.every((id) => places.includes(id));
    return whole ? places.map((id) => items.find((item) => item.id === id)) : items;
  };

  class Order {
    constructor(part, { id, kept, changed }) {
      this.changed = changed;
      this.moved = kept !== '';
      this.said = make('p', { class: 'unseen', role: 'status' });
      this.list = make('ol', { class: 'order' }, ...startOrder(part.items, kept).map((item) => this.row(item)));
      this.element = make('fieldset', { class: 'part', 'aria-describedby': `${id}-note ${id}-verdict` },
        make('legend', {}, part.label),
        make('p', { class: 'part-note part-how', id: `${id}-note` }, say('order.note')),
        this.list, this.said);
      this.ends();
    }

    get rows() { return [...this.list.children]; }

    row(item) {
      const text = rich('span', { class: 'order-text' }, item.html);
      const named = { item: text.textContent.trim() };
      const up = button(arrow(UP), { class: 'order-move', 'aria-label': say('order.up', named) }, () => this.move(row, -1));
      const down = button(arrow(DOWN), { class: 'order-move', 'aria-label': say('order.down', named) }, () => this.move(row, 1));
      const row = make('li', { 'data-item': item.id }, make('span', { class: 'order-row' },
        make('span', { class: 'order-blank', 'aria-hidden': 'true' }), text, make('span', { class: 'order-moves' }, up, down)));
      return row;
    }

    /* The neighbour is what moves in the page, so that the pressed button keeps the focus. */
    move(row, step) {
      const neighbour = step < 0 ? row.previousElementSibling : row.nextElementSibling;
      if (!neighbour) return;
      if (step < 0) row.after(neighbour);
      else row.before(neighbour);
      this.moved = true;
      this.ends();
      this.changed(this.read());
      const item = row.querySelector('.order-text').textContent.trim();
      this.said.textContent = say('order.moved', { item, place: this.rows.indexOf(row) + 1, of: this.rows.length });
    }

    /* A button that can move its item no further stays focusable, and says that it does nothing. */
    ends() {
      this.rows.forEach((row, place, rows) => {
        const [up, down] = row.querySelectorAll('button');
        up.setAttribute('aria-disabled', String(place === 0));
        down.setAttribute('aria-disabled', String(place === rows.length - 1));
      });
    }

    read() { return this.rows.map((row) => row.dataset.item).join(' '); }
  }

  /* The list is an order from the start; only once something has moved is it clear that it is meant as an answer. */
  SEATWORK.fields.in_order = (part, context) => {
    const order = new Order(part, context);
    return { element: order.element, begun: () => order.moved, answer: () => order.read() };
  };
})();
