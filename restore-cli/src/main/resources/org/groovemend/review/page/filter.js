// Which edits are listed, and in which order.
import { byId, count, many, tell, wall } from "./words.js";

export class Filter {
  constructor(edits, about, list) {
    Object.assign(this, { edits, list });
    for (const stage of edits.stages) byId("f-stage").append(new Option(stage, stage));
    for (let c = 0; c < about.channels; c++) byId("f-channel").append(new Option(wall(c, about.channels), c));
    byId("filter").addEventListener("change", () => this.apply());
    byId("filter").addEventListener("submit", (e) => e.preventDefault());
  }

  apply() {
    const wanted = {
      sort: byId("sort").value,
      stage: byId("f-stage").value,
      channel: byId("f-channel").value,
      verdict: byId("f-verdict").value,
    };
    const order = this.edits.listed(wanted);
    this.list.show(order);
    tell("count", order.length === this.edits.size ? many(order.length, "edit") : count(order.length) + " of " + many(this.edits.size, "edit"));
  }

  /** After marks have changed. */
  marks() {
    if (byId("f-verdict").value !== "") this.apply();
    else this.list.draw();
  }

  turn() {
    byId("sort").value = byId("sort").value === "doubt" ? "time" : "doubt";
    this.apply();
  }
}
