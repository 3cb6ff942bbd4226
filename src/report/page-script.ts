// The script of the report page. Nothing depends on it: it lights what a wire depends on, and steps through the ticks of
// the slowest transition. It is a text, because the page carries it along; it uses nothing but the page.

export const PAGE_SCRIPT = `
'use strict';
for (const picture of document.querySelectorAll('svg.schematic')) {
  const told = document.getElementById('told');
  const boxes = [...picture.querySelectorAll('.box')];
  const nets = new Map([...picture.querySelectorAll('.net')].map((net) => [net.dataset.sheet + ' ' + net.dataset.net, net]));
  const numbers = (text) => (text ? text.split(' ') : []);
  const source = new Map();
  for (const box of boxes) {
    for (const net of numbers(box.dataset.leads)) {
      const key = box.dataset.sheet + ' ' + net;
      source.set(key, [...(source.get(key) || []), box]);
    }
  }
  const dark = () => {
    picture.classList.remove('cone');
    for (const lit of picture.querySelectorAll('.lit')) lit.classList.remove('lit');
  };
  const light = (element) => {
    dark();
    picture.classList.add('cone');
    const waiting = [];
    const enter = (key) => {
      const net = nets.get(key);
      if (net === undefined || net.classList.contains('lit')) return;
      net.classList.add('lit');
      waiting.push(...(source.get(key) || []));
    };
    if (element.classList.contains('net')) enter(element.dataset.sheet + ' ' + element.dataset.net);
    else waiting.push(element);
    while (waiting.length > 0) {
      const box = waiting.pop();
      if (box.classList.contains('lit')) continue;
      box.classList.add('lit');
      for (const net of numbers(box.dataset.legs)) enter(box.dataset.sheet + ' ' + net);
    }
    const title = element.querySelector('title');
    if (told !== null && title !== null) told.textContent = title.textContent;
  };
  for (const element of [...boxes, ...nets.values()]) {
    element.addEventListener('pointerenter', () => light(element));
    element.addEventListener('pointerleave', dark);
  }
  for (const box of boxes) {
    box.setAttribute('tabindex', '0');
    box.addEventListener('focus', () => light(box));
    box.addEventListener('blur', dark);
  }
}
const stepper = document.getElementById('stepper');
if (stepper !== null) {
  const slider = stepper.querySelector('input');
  const shown = document.getElementById('step');
  stepper.hidden = false;
  const show = () => {
    const at = Number(slider.value);
    shown.textContent = at === 0 ? 'before the change' : 'tick ' + (at - 1);
    for (const picture of document.querySelectorAll('svg.schematic')) {
      picture.classList.add('stepping');
      for (const net of picture.querySelectorAll('.net')) {
        const level = (net.dataset.levels || '')[at];
        net.classList.toggle('now1', level === '1');
        net.classList.toggle('now0', level === '0');
      }
    }
  };
  slider.addEventListener('input', show);
}
`.trim();
