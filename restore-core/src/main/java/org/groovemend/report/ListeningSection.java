package org.groovemend.report;

import java.io.IOException;
import java.util.Base64;

/** Care first, then the clips. */
final class ListeningSection {

  private final PageParts parts;
  private final HtmlWriter html;

  ListeningSection(PageParts parts) {
    this.parts = parts;
    this.html = parts.html();
  }

  void write(Listening listening) throws IOException {
    parts.open("Listen");
    care();
    html.element("p", listening.sentence());
    for (Listening.Place place : listening.passages()) {
      html.start("h3").text(place.title());
      html.element("span", place.time(), "class", "state out").end();
      html.element("p", place.sentence()).start("div", "class", "clips");
      for (Listening.Sound sound : place.clips()) {
        sound(place, sound);
      }
      html.end();
    }
    html.end();
  }

  private void sound(Listening.Place place, Listening.Sound sound) throws IOException {
    html.start("figure", "class", "clip").element("figcaption", sound.label());
    html.start(
        "audio",
        "controls",
        "controls",
        "preload",
        "metadata",
        "aria-label",
        place.title() + ", " + place.time() + ": " + sound.label(),
        "src",
        "data:audio/flac;base64," + Base64.getEncoder().encodeToString(sound.flac()));
    html.end().end();
  }

  private void care() throws IOException {
    html.start("div", "class", "care");
    html.element(
        "p",
        "Start with the level right down, above all for what was removed: it is mostly silence with"
            + " sudden loud pops, and playing it with gain can hurt ears and loudspeakers. Needle"
            + " drops and thumps in the original are louder than the music. Local rules on noise at"
            + " work apply.");
    html.element(
        "p",
        "What was removed should hold ticks, scratches and hiss, and no tune, words or rhythm of the"
            + " performance. If it does, take the treatment back and use a gentler one. Do not play"
            + " the disc once more to settle a doubt: each playing wears it; ask a conservator about"
            + " fragile discs.");
    html.end();
  }
}
