'use strict';
// Compares tonight's readings with what the engine has worked out. It calculates nothing else.

const data = JSON.parse(document.getElementById('data').textContent);
const at = (id) => document.getElementById(id);

// --- The rules. They are those of rules.cc, and a test gives both the same cases. ---

/** JSON has no infinity: null stands for it. */
const amount = (number) => (number === null ? Infinity : number);

const tooMuch = (reserve, reading) => reading > amount(reserve.holds) + reserve.step;

function wayOf(reading, least, factor) {
  if (reading < least) return 'shut';
  return reading < least * factor ? 'rate' : 'open';
}

function togetherOf(ways) {
  if (ways.length === 0) return 'unknown';
  return ['shut', 'unknown', 'rate', 'open'].find((way) => ways.includes(way));
}

/** Finds the reading to tell use from. An entry is {reading, taken}; null: nothing was typed. */
function tellUse(out, reserve, entries, evening) {
  const least = data.steps * reserve.step;
  let taken = 0;
  let planned = 0;
  for (let next = evening; next > 0; --next) {
    planned += reserve.evenings[next - 1].use;
    if (entries[next].taken !== null) {
      taken += entries[next].taken;
    } else if (reserve.evenings[next].takes) {
      out.asks = out.since < 0;
      return;
    }
    const before = entries[next - 1].reading;
    if (before === null || tooMuch(reserve, before)) continue;
    const used = before + taken - entries[evening].reading;
    if (used < -least) {
      out.asks = out.since < 0;
      return;
    }
    out.since = next - 1;
    out.used = used;
    out.planned = planned;
    if (planned < least) continue;
    out.rate = used / planned;
    return;
  }
}

function answerOf(reserve, entries, evening) {
  const reading = entries[evening].reading;
  if (reading === null) return null;
  const plan = reserve.evenings[evening];
  const out = {excess: false, stand: 'above', spare: 0, asks: false, since: -1, used: 0,
    planned: 0, rate: null, tomorrow: 0, on: 'open', once: 'shut', back: 'shut', again: false};
  out.spare = reading - amount(plan.must);
  out.excess = tooMuch(reserve, reading);
  if (out.excess) return out;
  if (out.spare < reserve.step) out.stand = out.spare < 0 ? 'below' : 'at';
  if (reserve.rated) tellUse(out, reserve, entries, evening);
  const factor = Math.max(1, out.rate === null ? 1 : out.rate);
  if (evening + 1 < reserve.evenings.length) {
    out.tomorrow = amount(reserve.evenings[evening + 1].must);
    if (factor > 1) {
      out.tomorrow = Math.ceil(out.tomorrow * factor / reserve.step - 1e-6) * reserve.step;
    }
  }
  out.on = wayOf(reading, amount(plan.must), factor);
  out.once = wayOf(reading, amount(plan.once), factor);
  out.back = wayOf(reading, amount(plan.back), factor);
  const most = out.rate !== null ? data.share * out.planned : data.steps * reserve.step;
  const farOff = out.since >= 0 && Math.abs(out.used - out.planned) > most;
  out.again = out.stand === 'below' || farOff;
  return out;
}

// --- What is kept: what stands in each field, by its name ---

const place = 'drystage ' + data.start + ' ' + data.title;
let kept = {};
let isKept = true;
try {
  kept = JSON.parse(localStorage.getItem(place)) || {};
} catch (error) {
  isKept = false;
}

function keep(name, text) {
  kept[name] = text;
  try {
    localStorage.setItem(place, JSON.stringify(kept));
  } catch (error) {
    isKept = false;
  }
}

// --- Words ---

/** A text changes only where it differs: what listens to it speaks of changes alone. */
function say(element, text) {
  if (element && element.textContent !== text) element.textContent = text;
}

const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function show(number, reserve) {
  if (!isFinite(number)) return 'no amount is enough';
  return Number(number.toFixed(reserve.digits + 1)) + ' ' + reserve.unit;
}

const sinceWords = (since) => (since === 0 ? 'since the start' : 'since day ' + since);

function useWords(answer, reserve) {
  return show(answer.used, reserve) + ' used ' + sinceWords(answer.since) + ', plan ' +
    show(answer.planned, reserve);
}

function standWords(answer, reserve) {
  if (answer.stand === 'at') return 'At must have: nothing to spare.';
  if (answer.stand === 'above') return 'Above must have by ' + show(answer.spare, reserve) + '.';
  const by = isFinite(answer.spare) ? ' by ' + show(-answer.spare, reserve) : '';
  return 'BELOW MUST HAVE' + by + '. Do not go on as planned.';
}

function answerWords(answer, reserve, evening) {
  if (answer.excess) {
    return 'More than there is room for (' + show(reserve.holds, reserve) + '). Read again.';
  }
  const lines = [standWords(answer, reserve)];
  if (answer.asks) lines.push('Type what you took on: then your rate can be told.');
  if (answer.rate !== null) {
    lines.push('Your rate: ' + answer.rate.toFixed(2) + ' times the plan (' +
      useWords(answer, reserve) + ').');
  } else if (answer.since >= 0) {
    lines.push(capital(useWords(answer, reserve)) + '.');
  }
  if (evening + 2 < data.evenings.length) {
    const planned = amount(reserve.evenings[evening + 1].must);
    lines.push('Tomorrow evening must have: ' + show(answer.tomorrow, reserve) +
      (answer.rate > 1 ? ' at your rate (plan ' + show(planned, reserve) + ').' : '.'));
  }
  return lines.join('\n');
}

const wayWords = {open: 'open', rate: 'only at the rate of the plan, not at yours',
  unknown: 'not known, type these', shut: 'NOT OPEN'};

/** One way for all reserves that life depends on: "Back: NOT OPEN (drinking water)". */
function oneWay(label, key, found) {
  const all = found.filter((one) => one.reserve.ways)
    .map((one) => ({name: one.reserve.name,
      way: one.answer === null || one.answer.excess ? 'unknown' : one.answer[key]}));
  const way = togetherOf(all.map((one) => one.way));
  const names = all.filter((one) => one.way === way).map((one) => one.name).join(', ');
  return label + ': ' + wayWords[way] + (way === 'open' ? '' : ' (' + names + ')');
}

function waysOf(evening, found) {
  if (!data.evenings[evening].ways || found.every((one) => one.answer === null)) return [];
  return [oneWay('On as planned', 'on', found), oneWay('On at once', 'once', found),
    oneWay('Back', 'back', found)];
}

/** One line for those at home. */
function sendWords(evening, found) {
  const readings = found.filter((one) => one.answer !== null && !one.answer.excess)
    .map((one) => one.reserve.name + ' ' + show(one.reading, one.reserve) +
      (isFinite(one.answer.spare)
        ? ' (must have ' + show(amount(one.reserve.evenings[evening].must), one.reserve) + ')'
        : ' (no amount is enough)'));
  return [data.title, data.evenings[evening].words, capital(readings.join(', '))]
    .concat(waysOf(evening, found)).join('. ') + '.';
}

// --- The fields ---

/** What stands in a field; null where that is no number, which is marked. */
function typed(field) {
  if (field === null) return null;
  const plain = field.value.trim().replace(',', '.');
  const isNumber = /^\d+(\.\d*)?$/.test(plain);
  field.setAttribute('aria-invalid', String(!isNumber && plain !== ''));
  return isNumber ? Number(plain) : null;
}

const entries = () => data.reserves.map((reserve, r) => data.evenings.map((_, evening) => ({
  reading: typed(at('e' + evening + 'r' + r)),
  taken: typed(at('e' + evening + 'r' + r + 't')),
})));

/** Answers one reserve on one evening, and says so under its fields. */
function tell(reserve, r, entered, evening) {
  const answer = answerOf(reserve, entered, evening);
  const id = 'e' + evening + 'r' + r;
  const wrong = [at(id), at(id + 't')]
    .some((field) => field && field.getAttribute('aria-invalid') === 'true');
  const words = answer === null ? '' : answerWords(answer, reserve, evening);
  say(at(id + 'a'), wrong ? 'That is not a number. Type digits, such as 84.' : words);
  const said = at(id + 'a');  // days gone by have no fields
  if (said) said.classList.toggle('grave', answer !== null && (answer.again || answer.excess));
  const taken = at(id + 't');
  if (taken) {
    const less = answer !== null && answer.since >= 0 && answer.used < answer.planned;
    taken.parentElement.hidden = !(reserve.evenings[evening].takes || taken.value !== '' ||
      (answer !== null && (answer.asks || (less && answer.again))));
  }
  return {reserve, answer, reading: entered[evening].reading};
}

function againWords(found, evening) {
  const {reserve, answer} = found;
  const below = answer.stand === 'below' ? [', below must have'] : [];
  const use = answer.since >= 0 ? [', ' + useWords(answer, reserve)] : [];
  return data.evenings[evening].words.split(',')[0] + ': ' + reserve.name +
    below.concat(use).join('');
}

function update() {
  const all = entries();
  const found = data.evenings.map((_, evening) =>
    data.reserves.map((reserve, r) => tell(reserve, r, all[r], evening)));
  let last = -1;
  const again = [];
  const why = [];
  data.evenings.forEach((_, evening) => {
    say(at('e' + evening + 'w'), waysOf(evening, found[evening]).join('\n'));
    if (found[evening].some((one) => one.answer !== null)) last = evening;
  });
  data.reserves.forEach((_, r) => {
    for (let evening = last; evening >= 0; --evening) {
      const one = found[evening][r];
      if (one.answer === null || one.answer.excess) continue;
      if (one.answer.again) {
        again.push(one.reserve.name);
        why.push(againWords(one, evening));
      }
      break;
    }
  });
  at('banner').hidden = again.length === 0;
  document.documentElement.classList.toggle('alarm', again.length > 0);
  say(at('again'), 'RUN THE PLAN AGAIN: ' + again.join(', '));
  say(at('why'), again.length === 0 ? '' :
    'Run the plan again from these readings. ' + why.join('. ') + '.');
  const next = Math.min(Math.max(last + 1, data.first), data.evenings.length - 1);
  at('next').href = '#day-' + next;
  say(at('next'), 'Type readings: ' + data.evenings[next].words);
  say(at('state'), last < 0 ? 'No reading yet.' :
    [data.evenings[last].words].concat(waysOf(last, found[last])).join('\n'));
  at('after').hidden = last < 0;
  at('send').value = last < 0 ? '' : sendWords(last, found[last]);
  at('all').value = data.evenings.map((evening, e) => [evening.words].concat(
    data.reserves.map((reserve, r) => [reserve, all[r][e]])
      .filter((pair) => pair[1].reading !== null || pair[1].taken !== null)
      .map(([reserve, entry]) => reserve.name +
        (entry.reading === null ? '' : ' ' + show(entry.reading, reserve)) +
        (entry.taken === null ? '' : ', taken on ' + show(entry.taken, reserve)))))
    .filter((line) => line.length > 1).map((line) => line.join('; ')).join('\n');
  say(at('kept'), isKept ? 'Readings are kept on this telephone.' :
    'This browser does not let the page keep readings: they are lost when it is closed. ' +
    'Copy them out.');
}

// --- What is done ---

function copy(button) {
  at(button.dataset.copies).select();
  say(button, document.execCommand('copy') ? 'Copied' : 'Marked: hold the text to copy it');
}

function setTheme(theme) {
  document.documentElement.dataset.theme = theme;
  say(at('theme'), theme === 'dark' ? 'Light screen' : 'Dark screen');
}

document.documentElement.classList.add('js');
document.querySelectorAll('input').forEach((field) => {
  if (typeof kept[field.name] === 'string') field.value = kept[field.name];
});
setTheme(kept.theme || (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light'));
update();
// Answers wait for a pause: half a number is no reading.
let pause = 0;
document.addEventListener('input', (event) => {
  keep(event.target.name, event.target.value);
  clearTimeout(pause);
  pause = setTimeout(update, 600);
});
document.addEventListener('change', update);
document.querySelectorAll('[data-copies]').forEach((button) =>
  button.addEventListener('click', () => copy(button)));
at('theme').addEventListener('click', () => {
  const theme = document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark';
  keep('theme', theme);
  setTheme(theme);
});
