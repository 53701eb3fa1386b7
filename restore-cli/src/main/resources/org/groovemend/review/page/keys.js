// Everything can be done with the keyboard; single keys can be switched off (WCAG 2.1, 2.1.4).
import { byId } from "./words.js";

const TYPED = new Set(["TEXTAREA", "SELECT"]);

export function keys(actions) {
  for (const [key, words] of actions) {
    const name = document.createElement("dt");
    const cap = document.createElement("kbd");
    cap.textContent = key.replace(" ", "space").replace("ArrowUp", "↑").replace("ArrowDown", "↓").replace("ArrowLeft", "←").replace("ArrowRight", "→");
    name.append(cap);
    const what = document.createElement("dd");
    what.textContent = words;
    byId("key-list").append(name, what);
  }
  const table = new Map(actions.map(([key, , act]) => [key, act]));
  table.set("=", table.get("+"));
  document.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || e.defaultPrevented) return;
    const node = e.target;
    const typing = TYPED.has(node.tagName) || (node.tagName === "INPUT" && node.type !== "checkbox" && node.type !== "range");
    if (typing) return;
    const moves = e.key.startsWith("Arrow") || e.key.startsWith("Page") || e.key === "Home" || e.key === "End";
    if (moves && (node.tagName === "INPUT" || !(node.id === "list" || node === document.body))) return;
    if (e.key === " " && ["BUTTON", "SUMMARY", "INPUT"].includes(node.tagName)) return;
    if (!moves && !byId("keys-on").checked) return;
    const act = table.get(e.key);
    if (act) {
      e.preventDefault();
      act();
    }
  });
}
