// What was not known to be kept when a page was left, for the page that comes: in this tab only.
const KEY = "wickwright.left";

export function leave(what) {
  try {
    sessionStorage.setItem(KEY, JSON.stringify(what));
  } catch {
    // A browser that keeps nothing sends all the same.
  }
}

export function left(call) {
  try {
    const what = JSON.parse(sessionStorage.getItem(KEY));
    sessionStorage.removeItem(KEY);
    return what?.call === call ? what : null;
  } catch {
    return null;
  }
}
