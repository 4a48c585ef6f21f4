// Single keys; with Alt also from within a field; Ctrl+Enter; and Esc to leave a field so that single keys act again.
// A page works without this file.
const OFF = "wickwright.single-keys-off";

export function singleKeysOff() {
  try {
    return localStorage.getItem(OFF) === "1";
  } catch {
    return false;
  }
}

export function setSingleKeys(on) {
  try {
    if (on) localStorage.removeItem(OFF);
    else localStorage.setItem(OFF, "1");
  } catch {
    // Kept for this page only, where the browser keeps nothing.
  }
}

const TICKED = "[type=checkbox], [type=radio]";

function typing(target) {
  const field = target.closest("input, select, textarea, [contenteditable]");
  return field !== null && !field.matches(TICKED);
}

function go(element) {
  if (element.matches(TICKED)) {
    element.focus();
    element.click();
  } else if (element.matches("input, textarea, select")) {
    element.focus();
    if ("select" in element) element.select();
  } else {
    element.click();
  }
}

// An element may have several keys; one of two letters is pressed as one after the other, as "v2".
let first = "";

function keyed(keys) {
  return document.querySelector(`[data-key~="${CSS.escape(keys)}"]`);
}

// The first of two keys lights up all that the second can choose; Esc forgets it.
function begun(key) {
  const all = [...document.querySelectorAll("[data-key]")];
  const next = (one) => one.dataset.key.split(" ").some((keys) => keys.length > 1 && keys[0] === key);
  for (const one of all) one.classList.toggle("next-key", next(one));
  first = all.some(next) ? key : "";
}

function send(at) {
  const marked = at.closest("[data-send]");
  const form = marked?.form ?? at.closest("form[data-send]");
  form?.requestSubmit();
  return Boolean(form);
}

document.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    if (send(event.target)) event.preventDefault();
    return;
  }
  if (event.key === "Escape" && typing(event.target) && !event.isComposing) {
    event.target.blur();
    return;
  }
  // Alt with a letter types nothing; AltGr and the Option key of a Mac do, and then the key is no letter of ours.
  const held = event.altKey && !event.getModifierState("AltGraph");
  if (event.ctrlKey || event.metaKey || event.repeat) return;
  if (!held && (event.altKey || typing(event.target) || singleKeysOff())) return;
  if (event.key === "Escape") begun("");
  if (event.key.length > 1) return;
  const wanted = (first && keyed(first + event.key)) || keyed(event.key);
  begun(wanted ? "" : event.key);
  if (wanted || first) event.preventDefault();
  if (wanted) go(wanted);
});
