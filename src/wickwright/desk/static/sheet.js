// The live parts of a call sheet: kept while it is typed, worked out anew after every answer.
// A page works without this file; then each form has its button.
import { leave, left } from "./left.js";
import { forget, hold, play } from "./typed_ahead.js";

const sheet = document.querySelector("[data-call]");
const live = document.getElementById("live");
const kept = document.getElementById("kept");
const ahead = document.getElementById("ahead");
const WAIT = 250;
let queue = Promise.resolve();
let stopped = false;
const timers = new Map();
document.documentElement.classList.add("is-live");

function version() {
  return document.querySelector("#said input[name=version]").value;
}

function formKey() {
  return document.querySelector("meta[name=form-key]").content;
}

function setVersion(text) {
  if (!text) return;
  for (const input of document.querySelectorAll("input[name=version]")) input.value = text;
}

// Fields follow what was answered beside them; never one that is being typed in.
function fill(texts) {
  for (const [id, text] of Object.entries(texts)) {
    const field = document.getElementById(id);
    if (field && field !== document.activeElement && !timers.has(field) && field.value !== text) {
      field.value = text;
    }
  }
}

function toQuestion() {
  const field = document.querySelector("#ask input:not([type=hidden], [type=checkbox])");
  (field ?? document.getElementById("ask-head"))?.focus({ preventScroll: true });
  const stop = live.querySelector(".alarm");
  if (stop) stop.scrollIntoView({ block: "start" });
  else document.getElementById("ask")?.scrollIntoView({ block: "nearest" });
}

// What is typed into the question and not sent yet outlives an answer to something else.
function unsent() {
  const fields = live.querySelectorAll("#ask input[id]:not([type=checkbox])");
  return [...fields].filter((field) => field.value).map((field) => [field.id, field.value]);
}

function show(html, answered) {
  const typed = answered ? [] : unsent();
  const ticked = answered ? [] : [...live.querySelectorAll("#ask input:checked")].map((one) => one.value);
  const held = live.contains(document.activeElement) ? document.activeElement.id : "";
  live.innerHTML = html;
  for (const [id, text] of typed) {
    const field = document.getElementById(id);
    if (field) field.value = text;
  }
  for (const box of live.querySelectorAll("#ask input[type=checkbox]")) {
    box.checked ||= ticked.includes(box.value);
  }
  if (location.search) history.replaceState(null, "", location.pathname);
  fill(JSON.parse(document.getElementById("fields").dataset.fields));
  if (answered) toQuestion();
  else if (held) document.getElementById(held)?.focus();
}

// What stops an adviser who types ahead: a danger, something not understood, another desk.
function warnings() {
  return [...live.querySelectorAll("#faults, [role=alert]")].map((one) => one.textContent).join();
}

function question() {
  const hidden = [...live.querySelectorAll("#ask [data-answer] [type=hidden]:not([name=version])")];
  return [document.getElementById("ask-head")?.textContent, ...hidden.map((one) => one.value)].join();
}

// Whether what was typed ahead is meant for the question that stands there now.
function movedOn(warned, asked, answer) {
  const now = warnings();
  if (now && now !== warned) return false;
  return !answer || question() !== asked;
}

// A step on its way is not stopped by leaving the page, where a browser can hold it that long.
const LONGEST = 60_000;
function posted(address, body) {
  const keepalive = body.toString().length < LONGEST;
  return fetch(address, { method: "POST", body, headers: { "X-Live": "1" }, keepalive });
}

// How a step is taken: kept while it is typed, kept with Enter, or an answer to the question.
const TYPED = 0, ENTERED = 1, ANSWER = 2;

// Returns whether what was typed ahead may go on.
async function send(address, body, how) {
  if (stopped) return false;
  const warned = warnings(), asked = question();
  body.set("version", version());
  body.set("form_key", formKey());
  kept.textContent = "Keeping …";
  sending = true;
  let answer;
  try {
    answer = await posted(address, body);
  } catch {
    kept.textContent = "Not kept: the desk cannot be reached. What you typed stays here; type on to try again.";
    return false;
  }
  under.delete(body);
  const text = await answer.text();
  if (answer.ok || answer.status === 409) {
    stopped = answer.status === 409;
    if (answer.ok) setVersion(answer.headers.get("X-Version"));
    show(text, how !== TYPED);
    kept.textContent = answer.ok ? "Kept." : "Not kept: another desk was quicker.";
  } else {
    kept.textContent = `Not kept (${answer.status}). Load the page again; what you typed stays until then.`;
  }
  return answer.ok && movedOn(warned, asked, how === ANSWER);
}

// While a step is worked out, a key would go to the question that is going away: it is held.
let busy = 0;
let goesOn = true;
function begin() {
  if (busy++) return;
  goesOn = true;
  live.setAttribute("aria-busy", "true");
  hold((keys) => { ahead.textContent = keys && ` Then: ${keys}`; });
}

function end() {
  if (--busy) return;
  live.removeAttribute("aria-busy");
  ahead.textContent = "";
  if (goesOn) {
    play();
    return;
  }
  const left = forget();
  if (left) kept.textContent += ` Typed ahead and not used: ${left}`;
}

// What the desk has not answered yet, and may never have heard.
const under = new Set();
let sending = false;
function later(address, body, how = TYPED) {
  if (how !== TYPED) begin();
  under.add(body);
  queue = queue.then(() => send(address, body, how)).catch(() => false).then((went) => {
    sending = false;
    if (how === TYPED) return;
    goesOn &&= went;
    end();
  });
}

// Fields are kept a moment after the last key; Enter keeps them at once and goes to the question.
function fieldBody(field) {
  const body = new URLSearchParams();
  body.set(field.name, field.value);
  return body;
}
function keep(field, wait) {
  clearTimeout(timers.get(field));
  timers.set(field, setTimeout(() => {
    timers.delete(field);
    later(field.form.action, fieldBody(field));
  }, wait));
}
for (const form of sheet.querySelectorAll("#said, #caller-form")) {
  form.addEventListener("input", (event) => {
    if (event.target.name) keep(event.target, event.target.matches("select") ? 0 : WAIT);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const waiting = [...timers.keys()];
    for (const field of waiting) {
      clearTimeout(timers.get(field));
      timers.delete(field);
      later(field.form.action, fieldBody(field), ENTERED);
    }
    if (waiting.length) return;
    begin();
    queue = queue.then(toQuestion).then(end);
  });
}

// Answers are sent by their own forms, which come and go with the live part.
live.addEventListener("submit", (event) => {
  const form = event.target.closest("[data-live-form]");
  if (!form) return;
  event.preventDefault();
  const body = new URLSearchParams(new FormData(form, event.submitter));
  const address = form.getAttribute("action");
  const answers = form.matches("#ask > form") && !address.endsWith("/back");
  later(address, body, answers ? ANSWER : ENTERED);
});

// Nothing typed is lost when the page is left: it is sent, and told to the page that comes.
function was(field) {
  const texts = JSON.parse(document.getElementById("fields").dataset.fields);
  return texts[field.id] ?? field.defaultValue;
}

function unkept() {
  const fields = [...sheet.querySelectorAll("#said [name][id], #caller-form [name][id]")];
  const sent = new Set([...under].flatMap((body) => [...body.keys()]));
  const typed = (field) => timers.has(field) || (sent.has(field.name) && field.value !== was(field));
  return fields.filter(typed);
}

addEventListener("pagehide", () => {
  if (stopped || !(timers.size || under.size)) return;
  const fields = unkept().map((field) => [field.id, field.value, was(field)]);
  leave({ call: sheet.dataset.call, version: Number(version()), fields });
  let at = Number(version()) + Number(sending);
  for (const form of new Set([...timers.keys()].map((field) => field.form))) {
    const body = new URLSearchParams({ version: at++, form_key: formKey() });
    for (const field of timers.keys()) if (field.form === form) body.set(field.name, field.value);
    posted(form.action, body);
  }
});

// A page loaded again may be quicker than what was on its way: it waits, and is no other desk.
const TRIES = 20;
const pause = () => new Promise((done) => { setTimeout(done, 150); });

async function newest() {
  const answer = await fetch(location.pathname, { headers: { "X-Live": "1" } });
  if (!answer.ok) return;
  const text = await answer.text();
  if (answer.headers.get("X-Version") === version()) return;
  setVersion(answer.headers.get("X-Version"));
  show(text, false);
}

async function settle({ version: before, fields }) {
  const missing = () => fields.filter(([id, text]) => document.getElementById(id)?.value !== text);
  const landed = () => Number(version()) > before && !missing().length;
  for (let tries = 0; tries < TRIES && !landed(); tries += 1) {
    await pause();
    await newest();
  }
  for (const [id, text, stood] of missing()) {
    const field = document.getElementById(id);
    if (field?.value === stood) {
      field.value = text;
      keep(field, 0);
    } else {
      kept.textContent += ` Not kept when the page was left: ${text}`;
    }
  }
  if (!fields.length && Number(version()) <= before) {
    kept.textContent = "The last answer was not kept when the page was left. Give it once more.";
  }
}

const before = left(sheet.dataset.call);
if (before) {
  begin();
  queue = queue.then(() => settle(before)).catch(() => {}).then(end);
}
