// The letter goes on paper as it stands in the field, kept or not.
const printed = document.getElementById("reply-printed");
addEventListener("beforeprint", () => {
  if (printed) printed.textContent = document.getElementById("reply").value;
});

// Copying the letter. On plain HTTP in a shop's network the clipboard is not there; then it is selected.
const button = document.getElementById("copy");
const field = document.getElementById("reply");
const said = document.getElementById("copied");
if (button && field) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(field.value);
      said.textContent = "Copied.";
    } catch {
      field.focus();
      field.select();
      said.textContent = document.execCommand("copy") ? "Copied." : "Selected: press Ctrl and C.";
    }
  });
}
