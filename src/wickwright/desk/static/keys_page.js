// The switch that turns single keys off.
import { setSingleKeys, singleKeysOff } from "./keys.js";

const box = document.getElementById("single-keys");
box.checked = !singleKeysOff();
box.addEventListener("change", () => setSingleKeys(box.checked));
