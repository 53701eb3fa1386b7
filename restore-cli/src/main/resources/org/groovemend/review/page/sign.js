// The end of a review: sums, sign-off, what to run next.
import { post } from "./api.js";
import { byId, count, many, say, tell } from "./words.js";

export class Sign {
  /** typed: saves what was typed and not saved yet. */
  constructor(about, change, ended, failed, typed) {
    this.total = about.edits;
    tell("file", about.decisions);
    tell("command", about.command);
    byId("sign").addEventListener("submit", async (e) => {
      e.preventDefault();
      await typed();
      if (await change("sign", { by: byId("signer").value })) say("Signed off.");
    });
    byId("reopen").addEventListener("click", async () => {
      if (await change("reopen", {})) say("Open again.");
    });
    byId("copy").addEventListener("click", async () => {
      try {
        await navigator.clipboard.writeText(about.command);
        say("Copied.");
      } catch {
        getSelection().selectAllChildren(byId("command"));
        say("Selected; copy it with the keys of your system.");
      }
    });
    byId("end").addEventListener("click", async () => {
      try {
        await typed();
        await post("end", {});
        ended();
      } catch (trouble) {
        failed(trouble);
      }
    });
  }

  state(state) {
    tell(
      "sums",
      many(this.total, "edit") + ": " + count(state.undo) + " to undo, " + count(state.ask) + " to ask a person about, " +
        count(state.keep) + " to keep; about " + count(this.total - state.said) + " nothing was decided, they stay.",
    );
    if (byId("signer").value === "") byId("signer").value = state.reviewer;
    const signed = state.signOff !== null;
    byId("signer").disabled = byId("sign-off").hidden = signed;
    byId("reopen").hidden = !signed;
    tell("signed", signed ? "Signed off by " + state.signOff.by + ", " + state.signOff.atUtc + ". Nothing is decided any more until it is opened again." : "");
  }
}
