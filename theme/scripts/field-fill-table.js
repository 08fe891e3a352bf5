/* The field of a table: an input for each cell that is asked for, and where a cell may lack its reading, a menu that says
   why. A cell is answered, marked and kept by its own name. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich, rounding } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  const inUnit = ({ unit }) => (unit ? say('practice.in_unit', { unit }) : '');

  const text = (html) => rich('span', {}, html).textContent.trim();

  /* The head of a column with its unit, above the column or, where each row is a block, before its cell. */
  const head = (column) => [column.head, ' ', make('span', { class: 'part-unit' }, inUnit(column))];

  /* How the numbers of a column are to be rounded. */
  const note = (column, attributes) =>
    (column.rounding ? make('span', { class: 'part-note', ...attributes }, rounding(column)) : null);

  /* Says of a cell that it was not measured, and why; with nothing chosen it was. */
  const menu = (cell, reasons, kept) => {
    const name = say('table.which', { cell: cell.label });
    const option = ({ id, html }) => make('option', { value: id }, say('table.lacks', { reason: text(html) }));
    const select = make('select', { class: 'record-lacks', 'aria-label': name },
      make('option', { value: '' }, say('table.measured')), ...reasons.map(option));
    select.value = kept;
    if (select.selectedIndex < 0) select.value = '';
    return select;
  };

  class Cell {
    constructor(cell, reasons, { keep: { id, kept, changed }, status }, round) {
      Object.assign(this, cell, { field: this, status, changed });
      const described = [round, `${id}-verdict`].filter(Boolean).join(' ');
      const name = [cell.label, inUnit(cell)].filter(Boolean).join(', ');
      this.input = make('input', {
        id, type: 'text', autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off', autocorrect: 'off',
        'aria-label': name, 'aria-describedby': described,
      });
      this.menu = cell.may_lack ? menu(cell, reasons, kept) : null;
      this.input.value = this.lacks() ? '' : kept;
      this.input.disabled = this.lacks();
      this.input.addEventListener('input', () => changed(this.answer()));
      if (this.menu) this.menu.addEventListener('change', () => this.chosen());
    }

    lacks() { return this.menu !== null && this.menu.value !== ''; }

    /* A number goes where its reading is said to be missing. */
    chosen() {
      if (this.lacks()) this.input.value = '';
      this.input.disabled = this.lacks();
      this.changed(this.answer());
    }

    answer() { return this.lacks() ? this.menu.value : this.input.value; }

    begun() { return this.answer().trim() !== ''; }

    judged(verdict) { this.input.setAttribute('aria-invalid', String(verdict === 'unreadable')); }

    take(reading) {
      this.input.value = reading;
      this.changed(reading);
      this.input.focus();
    }
  }

  SEATWORK.fields.fill_table = (part, { id }, piece) => {
    const cells = [];
    const column = (each, place) => make('th', { scope: 'col' }, ...head(each), note(each, { id: `${id}-round-${place}` }));
    const field = (cell, place) => {
      const made = new Cell(cell, part.not_measured, piece(cell), part.columns[place].rounding && `${id}-round-${place}`);
      cells.push(made);
      return made;
    };
    const before = (place) => {
      const each = part.columns[place];
      return make('span', { class: 'record-head', 'aria-hidden': 'true' }, ...head(each), note(each, {}));
    };
    const given = (cell, place) => make('td', {}, before(place), rich('span', {}, cell.given));
    const asked = (made, place) => make('td', { class: 'record-asked' }, before(place), made.input, made.menu);
    const row = (each) => {
      const made = each.cells.map((cell, place) => (cell.id ? field(cell, place) : null));
      const all = each.cells.map((cell, place) => (made[place] ? asked(made[place], place) : given(cell, place)));
      const verdicts = each.cells.flatMap((cell, place) => (made[place]
        ? [make('div', { class: 'record-verdict' },
          make('p', { class: 'record-of', 'aria-hidden': 'true' }, part.columns[place].head), made[place].status)] : []));
      return [
        make('tr', {}, make('th', { scope: 'row' }, each.head), ...all),
        make('tr', { class: 'record-verdicts' }, make('td', { colspan: each.cells.length + 1 }, ...verdicts)),
      ];
    };
    const element = make('fieldset', { class: 'part' },
      make('legend', {}, part.label),
      make('div', { class: 'table-wrap record-wrap' }, make('table', { class: 'record' },
        make('thead', {}, make('tr', {}, make('td'), ...part.columns.map(column))),
        make('tbody', {}, ...part.rows.flatMap(row)))));
    return { element, cells };
  };
})();
