/* Areas on a picture, drawn or typed, and the text to paste. Numbers are in per cent of the picture. */
(() => {
  'use strict';

  const find = (id) => document.getElementById(id);
  const [over, list, text, said, picture] = ['over', 'list', 'text', 'said', 'picture'].map(find);
  const heads = [...document.querySelectorAll('[data-head]')];
  const SIDES = ['left', 'top', 'width', 'height'];
  /* Below this, in per cent, a press is a click and not a drag. */
  const CLICK = 0.8;

  let areas = [];
  /* What is being drawn: the first corner of a shape, the corners of a polygon, or an area on its way. */
  let drawing = null;

  const tell = (key, values = {}) => {
    said.textContent = said.dataset[key].replace(/\{(\w+)\}/g, (_, name) => values[name]);
  };
  const round = (number) => Math.round(number * 10) / 10;
  const within = (number, most = 100) => Math.min(Math.max(number, 0), most);
  const tool = () => document.querySelector('input[name="tool"]:checked').value;

  const quoted = (words) => `"${words.replace(/\s+/g, ' ').replace(/["\\]/g, '\\$&')}"`;
  const shape = ({ kind, box, corners }) => (kind === 'polygon'
    ? `polygon: [${corners.map((corner) => `[${corner.join(', ')}]`).join(', ')}]`
    : `${kind}: { ${SIDES.map((side, place) => `${side}: ${box[place]}`).join(', ')} }`);
  const lines = (area) => [
    `  - id: ${area.id}`,
    `    name: ${quoted(area.name)}`,
    area.also && `    also: [${area.also.split(',').map((word) => quoted(word.trim())).join(', ')}]`,
    `    ${shape(area)}`,
    area.why && `    why: ${quoted(area.why)}`,
  ].filter(Boolean);
  const plain = (key) => (key === 'id' ? (words) => words : quoted);

  const write = () => {
    const head = heads.map((input) => `${input.dataset.head}: ${plain(input.dataset.head)(input.value)}`);
    text.value = ['---', 'format: 1', ...head, 'areas:', ...areas.flatMap(lines), '---', ''].join('\n');
  };

  const element = (name, attributes, inside = []) => {
    const made = document.createElementNS('http://www.w3.org/2000/svg', name);
    Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
    made.append(...inside);
    return made;
  };
  const outline = ({ kind, box, corners }, more) => {
    if (kind === 'polygon') return element('polygon', { points: corners.join(' '), ...more });
    const [x, y, width, height] = box;
    return kind === 'ellipse'
      ? element('ellipse', { cx: x + width / 2, cy: y + height / 2, rx: width / 2, ry: height / 2, ...more })
      : element('rect', { x, y, width, height, ...more });
  };
  const started = () => {
    if (!drawing || drawing.area) return [];
    const corners = drawing.corners || [drawing.from];
    return [outline(drawing.shape || { kind: 'polygon', corners }, { class: 'areas-started' }),
      ...corners.map(([cx, cy]) => element('ellipse', { cx, cy, rx: 0.6, ry: 0.6, class: 'areas-corner' }))];
  };
  const draw = () => {
    over.replaceChildren(...areas.map((area, place) => outline(area, { class: 'areas-shape', 'data-place': place })), ...started());
    find('close').disabled = !(drawing && drawing.corners && drawing.corners.length > 2);
  };
  const changed = () => {
    draw();
    write();
  };

  const corners = (words) => {
    const numbers = (words.match(/-?\d+(\.\d+)?/g) || []).map(Number);
    const pairs = numbers.flatMap((number, place) => (place % 2 ? [[numbers[place - 1], number]] : []));
    return numbers.length % 2 === 0 && pairs.length > 2 ? pairs : null;
  };
  const shown = (area) => {
    area.row.querySelector('legend').textContent = area.name;
    SIDES.forEach((side, place) => {
      const input = area.row.querySelector(`[data-number="${side}"]`);
      input.parentElement.hidden = area.kind === 'polygon';
      if (area.box) input.value = area.box[place];
    });
    const typed = area.row.querySelector('[data-key="corners"]');
    typed.parentElement.hidden = area.kind !== 'polygon';
    if (area.corners) typed.value = area.corners.map((corner) => corner.join(' ')).join(', ');
  };
  const typed = (area, { target }) => {
    const { key, number } = target.dataset;
    if (number) area.box[SIDES.indexOf(number)] = within(Number(target.value) || 0);
    else if (key === 'corners') {
      const read = corners(target.value);
      target.setAttribute('aria-invalid', String(!read));
      if (!read) return tell('unreadable');
      area.corners = read;
    } else area[key] = target.value;
    if (key === 'name') area.row.querySelector('legend').textContent = target.value;
    return changed();
  };
  const remove = (area) => {
    areas = areas.filter((other) => other !== area);
    area.row.remove();
    tell('removed', { name: area.name });
    find('add').focus();
    changed();
  };
  const free = () => {
    let number = areas.length + 1;
    while (areas.some(({ id }) => id === `area_${number}`)) number += 1;
    return number;
  };
  const add = (known) => {
    const number = free();
    const name = said.dataset.name.replace('{number}', number);
    const area = { id: `area_${number}`, name, also: '', why: '', ...known };
    area.row = find('row').content.firstElementChild.cloneNode(true);
    area.row.querySelectorAll('[data-key]').forEach((input) => { input.value = area[input.dataset.key] || ''; });
    area.row.addEventListener('input', (event) => typed(area, event));
    area.row.querySelector('[data-remove]').addEventListener('click', () => remove(area));
    areas.push(area);
    list.append(area.row);
    shown(area);
    tell('added', { name: area.name });
    changed();
    return area;
  };

  const at = ({ clientX, clientY }) => {
    const frame = over.getBoundingClientRect();
    return [round(within((clientX - frame.left) / frame.width * 100)), round(within((clientY - frame.top) / frame.height * 100))];
  };
  const between = ([x, y], [otherX, otherY]) => [Math.min(x, otherX), Math.min(y, otherY), Math.abs(x - otherX), Math.abs(y - otherY)].map(round);
  const far = (one, other) => Math.hypot(one[0] - other[0], one[1] - other[1]) > CLICK;
  const closed = () => {
    const { corners: all } = drawing;
    drawing = null;
    add({ kind: 'polygon', corners: all });
  };
  const moved = (area, [x, y]) => {
    if (area.box) {
      const [left, top, width, height] = area.box;
      area.box = [round(within(left + x, 100 - width)), round(within(top + y, 100 - height)), width, height];
    } else area.corners = area.corners.map((corner) => [round(within(corner[0] + x)), round(within(corner[1] + y))]);
    shown(area);
  };
  const finish = (to) => {
    const box = between(drawing.from, to);
    const kind = drawing.kind;
    drawing = null;
    if (box[2] > 0 && box[3] > 0) add({ kind, box });
  };

  over.addEventListener('pointerdown', (event) => {
    event.preventDefault();
    over.setPointerCapture(event.pointerId);
    const here = at(event);
    if (tool() === 'move') {
      const area = areas[event.target.dataset.place];
      drawing = area ? { area, from: here } : null;
    } else if (tool() === 'polygon') {
      const all = (drawing && drawing.corners) || [];
      if (all.length > 2 && !far(all[0], here)) closed();
      else {
        drawing = { corners: [...all, here] };
        tell('corner', { count: all.length + 1 });
      }
    } else if (drawing && drawing.from && !drawing.area) drawing.second = true;
    else drawing = { from: here, kind: tool() };
    draw();
  });
  over.addEventListener('pointermove', (event) => {
    if (!drawing || !drawing.from) return;
    const here = at(event);
    if (drawing.area) {
      if (!over.hasPointerCapture(event.pointerId)) return;
      moved(drawing.area, [here[0] - drawing.from[0], here[1] - drawing.from[1]]);
      drawing.from = here;
      changed();
    } else {
      drawing.shape = { kind: drawing.kind, box: between(drawing.from, here) };
      draw();
    }
  });
  /* One corner and then the other, by two clicks or by one drag. */
  over.addEventListener('pointerup', (event) => {
    if (!drawing || !drawing.from) return;
    if (drawing.area) drawing = null;
    else if (drawing.second || far(drawing.from, at(event))) finish(at(event));
    draw();
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || !drawing) return;
    drawing = null;
    draw();
  });
  document.querySelector('.areas-tools').addEventListener('change', () => {
    drawing = null;
    draw();
  });

  find('close').addEventListener('click', closed);
  find('add').addEventListener('click', () => {
    const kind = tool() === 'move' ? 'rectangle' : tool();
    const area = kind === 'polygon'
      ? add({ kind, corners: [[40, 40], [60, 40], [50, 60]] })
      : add({ kind, box: [40, 40, 20, 20] });
    area.row.querySelector('input').focus();
  });
  find('file').addEventListener('change', ({ target }) => {
    const [file] = target.files;
    if (!file) return;
    const reader = new FileReader();
    reader.addEventListener('load', () => { picture.src = reader.result; });
    reader.readAsDataURL(file);
    const stem = file.name.replace(/\.\w+$/, '').toLowerCase().replace(/[^a-z0-9]+/g, '_').replace(/^[^a-z]+|_+$/g, '');
    heads.forEach((input) => {
      if (input.dataset.head === 'image') input.value = `../images/${file.name}`;
      if (input.dataset.head === 'id' && !input.value) input.value = stem;
    });
    write();
  });
  const open = ({ address, head, areas: known }) => {
    areas.forEach(({ row }) => row.remove());
    areas = [];
    picture.src = address;
    heads.forEach((input) => { input.value = head[input.dataset.head] || ''; });
    known.forEach(add);
  };
  document.querySelectorAll('.areas-open').forEach((button) =>
    button.addEventListener('click', () => open(JSON.parse(button.dataset.picture))));
  heads.forEach((input) => input.addEventListener('input', write));
  find('copy').addEventListener('click', async () => {
    text.select();
    try {
      await navigator.clipboard.writeText(text.value);
      tell('copied');
    } catch (refused) {
      tell('notCopied');
    }
  });
  write();
})();
