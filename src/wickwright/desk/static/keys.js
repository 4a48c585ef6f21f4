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

document.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    const field = event.target.closest("[data-send]");
    if (field?.form) {
      event.preventDefault();
      field.form.requestSubmit();
    }
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
  const wanted = document.querySelector(`[data-key="${CSS.escape(event.key)}"]`);
  if (wanted) {
    event.preventDefault();
    go(wanted);
  }
});
