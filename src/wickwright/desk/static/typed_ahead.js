// Keys typed while a sheet is worked out: held, then played, in order, into the question that comes.
// Keys that do not type (of the browser, for scrolling) are let through.
const NAMED = new Set(["Enter", "Escape", "Tab", "Backspace"]);
const TEXT = "textarea, input:not([type=checkbox], [type=radio], [type=file])";
const STOPS = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']";
const keys = [];
let holding = false;
let shown = () => {};

export function hold(show) {
  holding = true;
  shown = show;
}

// An answer that is played holds what comes after it for the next question.
export function play() {
  holding = false;
  while (keys.length && !holding) press(keys.shift());
  if (holding) shown(text(keys));
}

// What was meant for a question that does not come is not played into another; it is told.
export function forget() {
  holding = false;
  return text(keys.splice(0));
}

function text(held) {
  return held.map((one) => (one.key.length === 1 ? one.key : ` ${one.key} `)).join("").trim();
}

function push(...held) {
  keys.push(...held);
  shown(text(keys));
}

function types(event) {
  if (event.isComposing || (event.repeat && event.key !== "Backspace")) return false;
  const mine = event.getModifierState("AltGraph") || !(event.ctrlKey || event.metaKey);
  return mine ? event.key.length === 1 || NAMED.has(event.key) : event.key === "a";
}

addEventListener("keydown", (event) => {
  if (!holding || !event.isTrusted || !(types(event) || event.repeat)) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  if (!types(event)) return;
  const graph = event.getModifierState("AltGraph");
  const altKey = event.altKey && !graph;
  const ctrlKey = (event.ctrlKey || event.metaKey) && !graph;
  push({ key: event.key, code: event.code, altKey, ctrlKey, shiftKey: event.shiftKey });
}, true);

// What comes without keys: pasted, dictated, from the keyboard of a telephone.
addEventListener("beforeinput", (event) => {
  if (!holding || !event.isTrusted || !event.cancelable) return;
  const come = event.data ?? event.dataTransfer?.getData("text/plain");
  if (!come) return;
  event.preventDefault();
  push(...[...come].map((key) => ({ key })));
}, true);

// A browser acts by itself on keys that are pressed, not on those that are played.
function press(key) {
  const at = document.activeElement ?? document.body;
  const event = new KeyboardEvent("keydown", { ...key, bubbles: true, cancelable: true });
  if (!at.dispatchEvent(event)) return;
  if (key.key === "Tab") step(at, key.shiftKey);
  else if (at.matches(TEXT)) edit(at, key);
  else if (key.key === "Enter" && at.matches("[type=checkbox], [type=radio]")) submit(at.form);
  else if (key.key === "Enter" || (key.key === " " && !at.matches("a"))) at.click();
}

function edit(field, { key, altKey, ctrlKey }) {
  if (ctrlKey) field.select();
  else if (key === "Enter" && !field.matches("textarea")) submit(field.form);
  else if (key === "Enter") put(field, "\n");
  else if (key === "Backspace") erase(field);
  else if (key.length === 1 && !(altKey && key < "\x7f")) put(field, key);
}

function submit(form) {
  form?.requestSubmit(form.querySelector("button:not([type=button])"));
}

function put(field, data, from = field.selectionStart) {
  field.setRangeText(data, from, field.selectionEnd, "end");
  const inputType = data ? "insertText" : "deleteContentBackward";
  field.dispatchEvent(new InputEvent("input", { data, inputType, bubbles: true }));
}

function erase(field) {
  const { selectionStart: from, selectionEnd: to } = field;
  put(field, "", from === to ? Math.max(0, from - 1) : from);
}

function step(from, back) {
  const stops = [...document.querySelectorAll(STOPS)].filter((one) => !one.disabled && one.checkVisibility());
  const side = back ? Node.DOCUMENT_POSITION_PRECEDING : Node.DOCUMENT_POSITION_FOLLOWING;
  const there = stops.filter((one) => from.compareDocumentPosition(one) & side);
  there.at(back ? -1 : 0)?.focus();
}
