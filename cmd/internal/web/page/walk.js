// The page of a walk-through. It decides nothing: it shows the view that the program sends and gives back what people tap.
// Text from the view goes into the page as text only.
'use strict';

const $ = (id) => document.getElementById(id);
const signs = { settled: '✓', 'not met': '✗', 'not shown': '?', overruled: 'o' };
const said = { open: 'open', settled: 'settled', 'not met': 'not met', 'not shown': 'not shown', overruled: 'overruled' };
const pretty = { degC: '°C', degF: '°F', deg: '°', ohm: 'Ω', mohm: 'mΩ', um: 'µm', m2: 'm²', m3: 'm³', ft2: 'ft²', ft3: 'ft³' };

let view = null;
let opened = null;     // key of the item that somebody has opened, '' when they closed it, null to follow what is next
let mine = '';         // key of the item that this phone has just answered
let alive = false;     // whether events are coming in
let queue = load('queue', []); // inputs that are not recorded yet, oldest first
let sending = false;

function load(name, otherwise) {
	try { return JSON.parse(localStorage.getItem('walk-' + name)) ?? otherwise; } catch { return otherwise; }
}
function save(name, value) {
	try { localStorage.setItem('walk-' + name, JSON.stringify(value)); } catch { /* a private window keeps nothing */ }
}
const phone = load('phone', '') || Array.from(crypto.getRandomValues(new Uint8Array(9)), (b) => b.toString(36)).join('').slice(0, 14);
save('phone', phone);
let me = load('name', '');

// el makes an element; a function among the attributes listens.
function el(tag, attributes, ...kids) {
	const e = document.createElement(tag);
	for (const [name, value] of Object.entries(attributes || {})) {
		if (typeof value === 'function') e.addEventListener(name, value);
		else if (value === true) e.setAttribute(name, '');
		else if (value !== false && value != null) e.setAttribute(name, value);
	}
	e.append(...kids.flat().filter((k) => k != null && k !== false));
	return e;
}

// keyed makes the children of a box match a list of {key, data, build}, and leaves alone whatever has not changed, so that
// nobody loses what they are typing or the place where they are.
function keyed(box, parts) {
	const old = new Map(Array.from(box.children, (c) => [c.dataset.key, c]));
	let at = box.firstElementChild;
	for (const part of parts) {
		const data = JSON.stringify(part.data);
		let e = old.get(part.key);
		old.delete(part.key);
		if (!e || e.said !== data) {
			const fresh = part.build();
			fresh.dataset.key = part.key;
			fresh.said = data;
			if (e) {
				if (at === e) at = fresh;
				carry(e, fresh, part.key !== mine);
				e.replaceWith(fresh);
				refocus(fresh);
			}
			e = fresh;
		}
		if (e === at) at = at.nextElementSibling;
		else box.insertBefore(e, at);
	}
	for (const gone of old.values()) gone.remove();
}

// carry takes over what was typed, what was opened and where the focus was.
let focused = null;
function carry(from, to, typed) {
	focused = null;
	for (const e of from.querySelectorAll('[data-f]')) {
		const twin = to.querySelector(`[data-f="${CSS.escape(e.dataset.f)}"]`);
		if (!twin) continue;
		if (typed && 'value' in e && e.tagName !== 'BUTTON') twin.type === 'radio' || twin.type === 'checkbox' ? (twin.checked = e.checked) : (twin.value = e.value);
		if (e.tagName === 'DETAILS') twin.open = e.open;
		if (typed && e.hasAttribute('hidden') === false && twin.dataset.fold) { twin.hidden = false; }
		if (e === document.activeElement) focused = e.dataset.f;
	}
}
function refocus(e) {
	if (focused) e.querySelector(`[data-f="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
}

// --- giving inputs ---

function send(input, wrong, done) {
	lostText = '';
	input.who = input.who || me;
	input.key = phone + '-' + Date.now().toString(36) + '-' + Math.floor(Math.random() * 1e6).toString(36);
	input.seen = view ? view.n : 0;
	queue.push(input);
	save('queue', queue);
	waiting.set(input.key, { wrong, done });
	work();
}
const waiting = new Map();

// work sends what is waiting, in order. A lost answer is no matter: the program knows an input by its key.
async function work() {
	if (sending) return;
	sending = true;
	while (queue.length > 0) {
		const input = queue[0];
		let status = 0, answer = {};
		try {
			const r = await fetch('/do', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(input), signal: AbortSignal.timeout(8000) });
			status = r.status;
			answer = await r.json();
		} catch { status = status && status !== 200 ? status : 0; }
		const { wrong, done } = waiting.get(input.key) || {};
		if (status === 401) { showPair(); break; }
		if (status === 200 || (status >= 400 && status < 500 && status !== 429)) {
			if (queue[0] === input) queue.shift();
			save('queue', queue);
			waiting.delete(input.key);
			if (status === 200) { if (done) done(answer); } else complain(answer, wrong);
			lost();
			continue;
		}
		lost(status >= 500 && answer.what ? answer.what + (answer.fix ? '; ' + answer.fix : '') : '');
		await new Promise((go) => setTimeout(go, status === 429 ? 1100 : 1500));
	}
	sending = false;
	lost();
}

function complain(answer, wrong) {
	const text = (answer.what || 'It was not taken') + (answer.fix ? ': ' + answer.fix : '') + '.';
	const place = wrong && $(wrong);
	if (place) place.textContent = capital(text);
	else { lostText = capital(text); lost(); }
}

let lostText = '';
function lost(why) {
	const strip = $('lost');
	let text = lostText || (view && view.clock ? capital(view.clock) + '.' : '');
	if (queue.length > 0 && (why || !alive)) text = `Not recorded yet: ${queue.map(named).join('; ')}. ${why ? capital(why) + '. ' : ''}Trying again.`;
	else if (!alive && view) text = 'No connection to the walk-through. What you see may be old. Trying again.';
	if (strip.textContent !== text) strip.textContent = text;
	strip.hidden = !text;
}
function named(i) {
	const it = view && i.item && items().find((x) => x.id === i.item && (x.subject || '') === (i.subject || ''));
	return [it ? it.challenge + ':' : i.part || i.rule || i.name || '', it && i.do === 'read' ? '' : i.do, i.pieces ?? '', i.text || ''].filter((x) => x !== '').join(' ');
}

// --- listening ---

let events = null;
function listen() {
	if (events) events.close();
	events = new EventSource('/events');
	events.onmessage = (e) => { alive = true; show(JSON.parse(e.data)); lost(); work(); };
	events.onerror = () => {
		alive = false;
		if (view) $('line').textContent = '';
		lost();
		if (events.readyState === EventSource.CLOSED) setTimeout(look, 1500);
	};
}
async function look() {
	try {
		const r = await fetch('/view', { signal: AbortSignal.timeout(8000) });
		if (r.status === 401) return showPair();
	} catch { /* listen tells */ }
	listen();
}

function showPair() {
	$('walk').hidden = true; $('join').hidden = true; $('pair').hidden = false;
	$('line').textContent = '';
	$('code').focus();
}
$('pair').addEventListener('submit', async (e) => {
	e.preventDefault();
	try {
		const r = await fetch('/pair', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ code: $('code').value }) });
		if (r.ok) { $('pair').hidden = true; $('code').value = ''; $('pair-wrong').textContent = ''; sending = false; listen(); return; }
		complain(await r.json(), 'pair-wrong');
		$('code').select();
	} catch { $('pair-wrong').textContent = 'The program cannot be reached.'; }
});

$('join').addEventListener('submit', (e) => {
	e.preventDefault();
	const name = $('name').value.trim().replace(/\s+/g, ' ');
	if (!name) return;
	send({ do: 'join', who: name, name, role: $('role').value, lead: $('lead').checked }, 'join-wrong', () => {
		me = name; save('name', me);
		if (view) { show(view); $('title').tabIndex = -1; $('title').focus(); }
	});
});

// --- showing ---

$('why').addEventListener('click', () => { $('against').scrollIntoView(); $('against-title').focus({ preventScroll: true }); });

const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

const leads = () => view.leader === me && me !== '';

function show(v) {
	view = v;
	const inCrew = me && v.crew.some((m) => m.name === me);
	$('pair').hidden = true;
	$('title').textContent = `${v.kit} ${v.revision}, ${v.list === 'preflight' ? 'pre-flight' : 'way home'}`;
	if ($('word').textContent !== v.verdict) $('word').textContent = v.verdict;
	$('verdict').dataset.word = v.verdict;
	$('summary').textContent = v.summary;
	document.title = `${v.verdict} · ${v.kit}`;
	const line = inCrew ? `${me}${leads() ? ', in charge' : v.leader ? `; ${v.leader} is in charge` : '; nobody is in charge yet'}` : '';
	if ($('line').textContent !== line) $('line').textContent = line;
	$('why').hidden = !inCrew || v.reasons.length === 0;
	document.documentElement.style.scrollPaddingTop = document.querySelector('header').offsetHeight + 12 + 'px';
	$('join').hidden = !!inCrew;
	if (!inCrew && $('role').length === 1) { $('role').append(...roles(v)); $('name').value = me; }
	$('lead-row').hidden = !!v.leader;
	$('walk').hidden = !inCrew;
	if (!inCrew) return;
	$('against').hidden = v.reasons.length === 0 && !(v.overruled || []).length;
	keyed($('reasons'), [
		...v.reasons.map((r, i) => ({ key: `r${r.rule || r.item || i}/${r.subject || ''}`, data: [r, leads()], build: () => reason(r, i) })),
		...(v.overruled || []).map((o, i) => ({ key: `o${o.rule || o.item}/${o.subject || ''}`, data: [o, leads()], build: () => over(o, i) })),
	]);
	keyed($('acts'), acts(v));
	keyed($('numbers'), numbers(v));
	$('measured').textContent = v.measured.length > 0 && v.list === 'preflight' ? `Measured: ${v.measured.map((p) => `${p.name} ${p.text}`).join(', ')}; all else as planned.` : '';
	showList();
	keyed($('more'), more(v));
	$('check').textContent = v.check ? `${v.n} lines, check ${v.check}` : 'No record is kept.';
	keyed($('journal'), v.journal.slice().reverse().map((l) => ({ key: 'j' + l.n, data: l, build: () => el('li', {}, el('time', { datetime: l.at }, l.at.slice(11, 16)), `${l.who ? l.who + ': ' : ''}${l.text}`) })));
	$('journal').start = v.n;
}

const roles = (v, mine) => v.roles.map((r) => el('option', { value: r, selected: r === mine }, r));
const part = () => (view.crew.find((m) => m.name === me) || {}).role || '';

// next is the item that comes next on this phone: the first of one's own part in the phase that is going on, or the first of all.
function next() {
	const phase = view.phases.find((p) => p.items.some((it) => it.key === view.next));
	const own = phase && phase.items.find((it) => it.state === 'open' && !it.hold && view.turn.includes(it.key) && it.role.split(', ').includes(part()));
	return own ? own.key : view.next || '';
}

function items() { return view.phases.flatMap((p) => p.items); }

// current is the key of the item that is open on this phone.
function current() {
	return opened !== null && (opened === '' || items().some((i) => i.key === opened)) ? opened : next();
}

function showList() {
	const was = items().find((i) => i.key === mine);
	const on = was && was.state !== 'open';
	if (on) opened = null;
	keyed($('list'), view.phases.map((p) => ({
		key: 'p' + p.title, data: p.title,
		build: () => el('section', { class: 'phase' }, el('h2', {}, p.title), el('div', { class: 'warnings' }), el('div', { class: 'items' })),
	})));
	view.phases.forEach((p, i) => {
		const place = $('list').children[i].querySelector('.warnings');
		// the numbers in a caution change with the readings, under the eyes of whoever is typing in an item below it
		keyed(place, p.cautions ? [{ key: 'w', data: p.cautions, build: () => el('div', {}, cautions(p.cautions, 'w' + i)) }] : []);
		if (view.closed && !folded && place.firstElementChild) place.querySelector('details').open = false;
		else if (!view.closed && place.firstElementChild && !warned.has(p.title) && p.items.some((it) => it.key === next())) {
			warned.add(p.title);
			place.querySelector('details').open = true;
		}
	});
	folded = view.closed;
	view.phases.forEach((p, i) => keyed($('list').children[i].querySelector('.items'), p.items.map((it) => {
		const open = it.key === current();
		return { key: it.key, data: [it, open, open && [leads(), view.closed, view.leader, it.state !== 'open' && next()]], build: () => item(it, open) };
	})));
	mine = '';
	if (on && view.next) reach(next());
}

// answered goes on from an item when its answer is recorded, whether or not the new view has come in already.
const answered = (key) => (answer) => { mine = key; if (view.n >= answer.n) showList(); };

// reach opens an item and brings it under the finger.
function reach(key) {
	opened = key === next() ? null : key;
	showList();
	const e = document.querySelector(`[data-key="${CSS.escape(key)}"]`);
	if (!e) return;
	e.scrollIntoView({ block: 'start' });
	e.querySelector('h3 button').focus({ preventScroll: true });
}

// cautions are read before the first step of a phase; they open by themselves when the phase is reached.
let folded = false;       // whether the cautions of a closed record have been folded up
const warned = new Set(); // titles of the phases whose cautions have opened
function cautions(all, id) {
	const words = [...new Set(all.map((c) => c.signal))].join(', ').toUpperCase();
	return el('details', { class: 'cautions', 'data-f': id }, el('summary', {}, `Before this, read${all.length === 1 ? '' : ' all ' + all.length}: ${words}`),
		el('ul', {}, all.map((c) => el('li', {}, el('b', {}, c.signal.toUpperCase()), ` ${c.hazard} ${c.consequence} `, el('strong', {}, c.avoid)))));
}

function item(it, isOpen) {
	const id = 'i' + it.number;
	const answer = it.tally ? `${it.tally.filter((t) => t.back != null).length} of ${it.tally.length} counted` : it.answer || '';
	const head = el('button', { type: 'button', 'aria-expanded': String(isOpen), 'aria-controls': id + '-b', 'data-f': id, click: () => { opened = isOpen ? '' : it.key; showList(); } },
		el('span', { class: 'mark', 'aria-hidden': 'true' }, signs[it.state] || String(it.number)),
		el('span', {}, it.challenge, el('span', { class: 'vh' }, `, item ${it.number}, ${said[it.state]}`)),
		el('span', { class: 'got' }, answer),
		it.why && !isOpen ? el('span', { class: 'why' }, it.why) : null);
	const box = el('article', { class: 'item' + (isOpen ? ' open' : ''), 'data-state': it.state }, el('h3', {}, head));
	if (isOpen) box.append(el('div', { id: id + '-b' }, body(it, id)));
	else head.removeAttribute('aria-controls');
	return box;
}

function body(it, id) {
	const about = { item: it.id, subject: it.subject };
	const wrong = id + '-wrong';
	const give = (input) => send({ ...about, ...input }, wrong, answered(it.key));
	const parts = [el('p', { class: 'ask' }, it.response), el('p', { class: 'meta' }, `${it.role}${it.critical ? ' · critical' : ''}${it.notes ? ' · ' + it.notes : ''}`)];
	if (it.hold) parts.push(el('p', { class: 'hold' }, leads() ? 'Hold point: you answer' : `Hold point: ${view.leader || 'the person in charge'} answers`));
	if (it.why) parts.push(el('p', { class: 'wrong' }, it.why));
	if (it.answer) parts.push(el('p', { class: 'meta' }, `Answered: ${it.answer}, ${it.by}`));
	if (view.closed) return parts;
	if (it.barred) return [...parts, el('p', { class: 'meta' }, capital(it.barred) + '.')];
	if (it.tally) parts.push(...it.tally.map((t, i) => tally(t, `${id}-t${i}`, it.key)));
	else if (it.asks) parts.push(reading(it, id, give));
	if (!it.tally && !(it.hold && !leads())) parts.push(ticks(it, id, give));
	parts.push(el('p', { class: 'wrong', role: 'alert', id: wrong }));
	if (it.state !== 'open' && view.next && next() !== it.key) parts.push(el('div', { class: 'row' }, el('button', { type: 'button', 'data-f': id + '-next', click: () => reach(next()) }, 'Next open item')));
	return parts;
}

function unitSelect(id, units) {
	return el('select', { id, name: 'unit', 'data-f': id }, units.map((u) => el('option', { value: u }, pretty[u] || u)));
}

// typed joins number and unit; whoever writes a unit after the number means that one.
const typed = (number, unit) => /[a-zA-Z%°µ]/.test(number) ? number.trim() : `${number.trim()} ${unit}`.trim();

function reading(it, id, give) {
	const value = el('input', { id: id + '-v', inputmode: 'decimal', autocomplete: 'off', 'data-f': id + '-v', required: true });
	const counts = it.asks.units.length < 2 && !it.asks.units[0];
	const unit = counts ? null : unitSelect(id + '-u', it.asks.units);
	const label = it.asks.labels ? el('input', { id: id + '-l', autocomplete: 'off', maxlength: 20, value: it.asks.label || '1', 'data-f': id + '-l' }) : null;
	return el('form', { submit: (e) => { e.preventDefault(); give({ do: 'read', text: typed(value.value, unit ? unit.value : ''), label: label ? label.value.trim() : undefined }); } },
		el('div', { class: 'read' },
			el('div', {}, el('label', { for: id + '-v' }, capital(it.asks.name)), value),
			unit ? el('div', {}, el('label', { for: id + '-u' }, 'Unit'), unit) : null),
		label ? el('div', {}, el('label', { for: id + '-l' }, 'Which set of this battery (a new name is a change)'), label) : null,
		el('button', { class: 'main', 'data-f': id + '-rec' }, 'Record'));
}

// fold is a button that shows a form with one line of text.
function fold(id, name, label, go, text) {
	const input = el('input', { id: id + '-x', maxlength: 400, autocomplete: 'off', 'data-f': id + '-x' });
	const form = el('form', { hidden: true, 'data-f': id + '-form', 'data-fold': '1', submit: (e) => { e.preventDefault(); text(input.value.trim()); } },
		el('label', { for: id + '-x' }, label), input, el('button', { class: 'main', 'data-f': id + '-go' }, go));
	const button = el('button', { type: 'button', 'aria-expanded': 'false', 'data-f': id + '-b', click: () => { form.hidden = !form.hidden; button.setAttribute('aria-expanded', String(!form.hidden)); if (!form.hidden) input.focus(); } }, name);
	return { button, form };
}

function ticks(it, id, give) {
	const buttons = [], forms = [];
	if (!it.asks) buttons.push(el('button', { type: 'button', class: 'main', 'data-f': id + '-y', click: () => give({ do: 'done' }) }, it.hold ? 'Go on' : 'Done'));
	const no = fold(id + '-n', it.hold ? 'Stop' : 'Not done', 'Why not', it.hold ? 'Record the stop' : 'Record not done', (t) => give({ do: 'not done', text: t }));
	buttons.push(no.button); forms.push(no.form);
	if (leads() && (it.doubt || !it.critical && !it.hold) && it.state !== 'settled' && it.state !== 'overruled') {
		const o = fold(id + '-o', 'Overrule', 'Reason, which is recorded with your name', 'Overrule', (t) => give({ do: 'overrule', text: t }));
		buttons.push(o.button); forms.push(o.form);
	}
	if (it.answer) buttons.push(el('button', { type: 'button', 'data-f': id + '-c', click: () => give({ do: 'take back' }) }, 'Take back'));
	return el('div', {}, el('div', { class: 'row' }, buttons), forms);
}

function tally(t, id, key) {
	const field = el('input', { id, inputmode: 'numeric', autocomplete: 'off', 'data-f': id, value: t.back ?? '' });
	const give = (n) => send({ do: 'count', part: t.part, pieces: n }, id + '-w', answered(key));
	return el('form', { class: 'part', submit: (e) => { e.preventDefault(); const n = Number(field.value); if (Number.isInteger(n) && field.value.trim() !== '') give(n); else $(id + '-w').textContent = 'Write how many are back.'; } },
		el('p', { id: id + '-of' }, el(t.out > 1 ? 'label' : 'span', { for: t.out > 1 && id }, `${t.part}, ${t.name}: ${t.out} out${t.back != null ? `, ${t.back} back` : ''}`)),
		el('div', { class: 'row' },
			t.back === t.out ? null : el('button', { type: 'button', 'data-f': id + '-all', 'aria-describedby': id + '-of', click: () => give(t.out) }, t.out === 1 ? 'It is back' : `All ${t.out} are back`),
			t.out > 1 ? [field, el('button', { 'data-f': id + '-rec', 'aria-label': `Record how many ${t.part} are back` }, 'Record')]
				: t.back === 0 ? null : el('button', { type: 'button', 'data-f': id + '-none', 'aria-describedby': id + '-of', click: () => give(0) }, 'Not back')),
		el('p', { class: 'wrong', role: 'alert', id: id + '-w' }));
}

function reason(r, i) {
	const id = 'r' + i;
	const kids = [el('strong', {}, `${r.outcome === 'not met' ? 'Not met' : 'Not shown'}: ${r.number ? `item ${r.number}, ` : ''}${r.title}`), el('p', {}, r.text), r.mend ? el('p', {}, 'To mend: ' + r.mend) : null];
	if (r.item && view.phases.some((p) => p.items.some((it) => it.id === r.item))) {
		const key = r.subject ? `${r.item}/${r.subject}` : r.item;
		kids.push(el('div', { class: 'row' }, el('button', { type: 'button', 'data-f': id + '-go', click: () => reach(key) }, 'Go to the item')));
	}
	if (r.may && r.rule && leads() && !view.closed) {
		const o = fold(id + '-o', 'Overrule', 'Reason, which is recorded with your name', 'Overrule', (t) => send({ do: 'overrule', rule: r.rule, subject: r.subject, text: t }, id + '-w'));
		kids.push(el('div', { class: 'row' }, o.button), o.form, el('p', { class: 'wrong', role: 'alert', id: id + '-w' }));
	}
	return el('li', { 'data-outcome': r.outcome }, kids);
}

function over(o, i) {
	return el('li', {}, el('strong', {}, `Overruled: ${o.title}`), el('p', {}, `${o.who}: ${o.reason}`),
		leads() && !view.closed ? el('div', { class: 'row' }, el('button', { type: 'button', 'data-f': 'over' + i, click: () => send({ do: 'withdraw', rule: o.rule, item: o.item, subject: o.subject }) }, 'Withdraw')) : null);
}

// twice is a button that asks again before it does what cannot be undone.
function twice(id, name, sure, go) {
	const yes = el('button', { type: 'button', class: 'main', 'data-f': id + '-yes', click: () => { box.hidden = true; go(); } }, sure);
	const box = el('div', { hidden: true, 'data-f': id + '-box', 'data-fold': '1' }, yes, el('div', { class: 'row' }, el('button', { type: 'button', 'data-f': id + '-no', click: () => { box.hidden = true; first.focus(); } }, 'Cancel')));
	const first = el('button', { type: 'button', class: 'main', 'data-f': id, click: () => { box.hidden = !box.hidden; if (!box.hidden) yes.focus(); } }, name);
	return el('div', {}, first, box, el('p', { class: 'wrong', role: 'alert', id: id + '-w' }));
}

function acts(v) {
	if (v.closed) return [];
	const all = [];
	if (v.mayLaunch) all.push({ key: 'up', data: 1, build: () => twice('up', 'The balloon is up', 'Yes, record that it is up', () => send({ do: 'up' }, 'up-w')) });
	if (v.aloft) {
		const again = v.phases.flatMap((p) => p.items).filter((i) => i.asks && i.asks.again && !i.barred);
		all.push({ key: 'again', data: again.map((i) => [i.key, i.answer]), build: () => el('div', {}, el('h2', {}, 'Read again'), el('div', { class: 'row' },
			again.map((i) => el('button', { type: 'button', 'data-f': 'again' + i.key, click: () => reach(i.key) }, i.asks.labels ? `${i.subject}: change or read` : capital(i.asks.name) + (i.answer ? ': ' + i.answer : ''))))) });
	}
	if (v.list === 'preflight' && v.flight) {
		const name = v.aloft ? 'Bring it down: the way home' : 'Begin the way home';
		all.push({ key: 'home', data: name, build: () => twice('home', name, 'Yes, begin the way home', () => send({ do: 'recover' }, 'home-w')) });
	}
	if (v.aloft) all.push({ key: 'down', data: 1, build: () => twice('down', 'The balloon is down', 'Yes, record that it is down', () => send({ do: 'down' }, 'down-w')) });
	return all;
}

function numbers(v) {
	const pair = (key, name, text, late) => ({ key, data: [name, text, late], build: () => el('div', late ? { class: 'late' } : {}, el('dt', {}, name), el('dd', {}, text)) });
	return [
		...(v.list === 'preflight' ? v.limits.map((p) => pair('l' + p.name, p.name, p.text)) : []),
		...(v.flight || []).map((p, i) => pair('f' + i, p.name, p.text)),
		...(v.sets || []).map((s, i) => pair('s' + i, `${s.battery}, set ${s.label}`, s.until ? `${s.since} to ${s.until}` : s.due ? `change ${s.late ? 'was due' : 'by'} ${s.due}` : `in since ${s.since}`, s.late)),
		...(v.home || []).map((p, i) => pair('h' + i, p.name, p.text)),
	];
}

const box = (name, ...kids) => el('details', { class: 'box', 'data-f': 'box' + name }, el('summary', {}, name), el('div', {}, kids));

function more(v) {
	if (v.closed) return [];
	const all = [];
	if (v.weighing) all.push({ key: 'weigh', data: v.weighing, build: () => box('Weigh the parts', el('p', {}, 'One piece of each. What is weighed counts in place of what was assumed.'), v.weighing.map(scale)) });
	if (v.parts) all.push({ key: 'damage', data: [v.parts, v.damage], build: () => box('Note damage', damage(v)) });
	all.push({ key: 'note', data: 1, build: () => box('Note something', line('note', 'Note', 'Record the note', (t) => ({ do: 'note', text: t }))) });
	all.push({ key: 'part', data: [v.roles, part()], build: () => box('Change your part', changePart(v)) });
	if (leads() && v.crew.length > 1) all.push({ key: 'lead', data: [v.crew], build: () => box('Hand over the charge', handOver(v)) });
	all.push({ key: 'close', data: v.verdict, build: () => box('Close the record', el('p', {}, `The verdict is ${v.verdict}. Nothing can be added afterwards.`), line('close', v.verdict === 'COMPLETE' ? 'Remark (may be empty)' : 'Why it is closed all the same', 'Close the record', (t) => ({ do: 'close', text: t }))) });
	return all;
}

function line(id, label, go, input) {
	const field = el('input', { id, maxlength: 400, autocomplete: 'off', 'data-f': id });
	return el('form', { submit: (e) => { e.preventDefault(); send(input(field.value.trim()), id + '-w', () => { field.value = ''; }); } },
		el('label', { for: id }, label), field, el('p', { class: 'wrong', role: 'alert', id: id + '-w' }), el('button', { class: 'main', 'data-f': id + '-go' }, go));
}

function scale(w, i) {
	const id = 'w' + i;
	const value = el('input', { id, inputmode: 'decimal', autocomplete: 'off', 'data-f': id });
	const unit = unitSelect(id + '-u', w.units);
	unit.setAttribute('aria-label', `Unit of the mass of ${w.part}`);
	return el('form', { class: 'part', submit: (e) => { e.preventDefault(); send({ do: 'weigh', part: w.part, text: value.value.trim() ? typed(value.value, unit.value) : '' }, id + '-w', () => { value.value = ''; }); } },
		el('p', {}, el('label', { for: id }, `${w.part}, ${w.name}: stated ${w.stated}${w.weighs ? `, weighed ${w.weighs}` : ''}`)),
		el('div', { class: 'row' }, value, unit, el('button', { 'data-f': id + '-go', 'aria-label': `Record the mass of ${w.part}` }, 'Record')),
		el('p', { class: 'wrong', role: 'alert', id: id + '-w' }));
}

function damage(v) {
	const part = el('select', { id: 'd-part', 'data-f': 'd-part' }, v.parts.map((p) => el('option', { value: p.name }, `${p.name}, ${p.text}`)));
	const n = el('input', { id: 'd-n', inputmode: 'numeric', value: '1', autocomplete: 'off', 'data-f': 'd-n' });
	const fate = el('select', { id: 'd-fate', 'data-f': 'd-fate' }, el('option', { value: 'mend' }, 'mend'), el('option', { value: 'replace' }, 'replace'));
	const what = el('input', { id: 'd-what', maxlength: 400, autocomplete: 'off', 'data-f': 'd-what' });
	return el('form', { submit: (e) => { e.preventDefault(); send({ do: 'damage', part: part.value, pieces: Number(n.value) | 0, fate: fate.value, text: what.value.trim() }, 'd-w', () => { what.value = ''; }); } },
		el('label', { for: 'd-part' }, 'Part'), part, el('label', { for: 'd-n' }, 'Pieces damaged (0 takes it back)'), n,
		el('label', { for: 'd-fate' }, 'What is to be done'), fate, el('label', { for: 'd-what' }, 'What happened'), what,
		el('p', { class: 'wrong', role: 'alert', id: 'd-w' }), el('button', { class: 'main', 'data-f': 'd-go' }, 'Record the damage'));
}

function changePart(v) {
	const to = el('select', { id: 'p-to', 'data-f': 'p-to' }, roles(v, part()));
	return el('form', { submit: (e) => { e.preventDefault(); send({ do: 'join', name: me, role: to.value }, 'p-w'); } },
		el('label', { for: 'p-to' }, 'Your part; its items come to you first'), to, el('p', { class: 'wrong', role: 'alert', id: 'p-w' }), el('button', { class: 'main', 'data-f': 'p-go' }, 'Change'));
}

function handOver(v) {
	const to = el('select', { id: 'l-to', 'data-f': 'l-to' }, v.crew.filter((m) => m.name !== me).map((m) => el('option', { value: m.name }, m.name)));
	return el('form', { submit: (e) => { e.preventDefault(); send({ do: 'join', name: to.value, lead: true }, 'l-w'); } },
		el('label', { for: 'l-to' }, 'Who is in charge from now on'), to, el('p', { class: 'wrong', role: 'alert', id: 'l-w' }), el('button', { class: 'main', 'data-f': 'l-go' }, 'Hand over'));
}

listen();
