package org.groovemend.report;

import java.io.IOException;

/**
 * One sheet of paper for people who are no engineers: what was done to a record. Light or dark as
 * the reader's screen prefers, light on paper; holds everything it shows.
 */
public final class AccountPage {

  /** Made for one sheet of A4. */
  private static final String CSS =
      """
      main,header,footer{max-width:52rem}
      h1{font-size:1.5rem}
      .parts{columns:2;column-gap:2rem;margin-top:.6rem}
      .parts section{break-inside:avoid;border-top:1px solid var(--rule);padding:.5rem 0 .2rem;margin:0}
      .parts h2{margin:0 0 .2rem}
      .parts ul{margin:0;padding-left:1.1rem}
      .parts li{margin:.15rem 0}
      figure{margin:.5rem 0 .7rem}
      figure img{min-width:0}
      .print{border:2px solid var(--ink);padding:.5rem .8rem;margin:1rem 0 0;break-inside:avoid}
      .print p{margin:.1rem 0;max-width:none}
      .print .mark{font-family:"DejaVu Sans Mono",Menlo,Consolas,monospace;font-size:1.25rem;
        letter-spacing:.06em;white-space:nowrap}
      .sign{grid-template-columns:2fr 2fr 1fr}
      @media (max-width:40rem){.parts{columns:1}.print .mark{font-size:.95rem;letter-spacing:0}}
      @media print{
        body{font-size:8.6pt;line-height:1.3}
        header{padding-top:0}
        header .rule{margin:.3rem 0}
        figure img{width:84%;margin:0 auto}
        h1{font-size:15pt;margin:0 0 .2rem}
        h2{font-size:9.5pt}
        .summary{font-size:9.8pt;max-width:none}
        figure{margin:.2rem 0 .25rem;padding:.15rem}
        figcaption{font-size:8pt;padding-top:.15rem}
        .parts{margin-top:.3rem}
        .print{margin-top:.5rem;padding:.25rem .6rem}
        .sign{margin:2rem 0 0}
        .parts section{padding:.25rem 0 .1rem}
        .made{margin:.1rem 0 0}
      }
      @page{size:A4;margin:11mm 15mm}
      """;

  private final HtmlWriter html;
  private final PageParts parts;
  private final AccountInput in;

  private AccountPage(AccountInput in, Appendable out) {
    this.html = new HtmlWriter(out);
    this.parts = new PageParts(html);
    this.in = in;
  }

  /** Writes the whole page; closes nothing. */
  public static void write(AccountInput in, Appendable out) throws IOException {
    new AccountPage(in, out).page();
  }

  private void page() throws IOException {
    parts.begin(
        "What was done to this record: " + in.side(),
        PageStyle.CSS + CSS,
        "default-src 'none'; img-src data:; style-src 'unsafe-inline'");
    html.start("header").element("p", "Account of a treatment", "class", "kind");
    html.start("h1").text("What was done to this record: ");
    html.element("bdi", in.side()).end();
    html.element("p", in.about(), "class", "made").start("div", "class", "rule").end();
    for (String sentence : in.inShort()) {
      html.element("p", sentence, "class", "summary");
    }
    html.end().start("main");
    for (Figure figure : in.pictures()) {
      parts.picture(figure);
    }
    html.start("div", "class", "parts");
    for (AccountInput.Part part : in.parts()) {
      html.start("section").element("h2", part.title()).start("ul");
      for (String item : part.items()) {
        html.element("li", item);
      }
      html.end().end();
    }
    html.end();
    html.start("div", "class", "print").element("p", "Fingerprint, to write on the sleeve");
    html.element("p", in.fingerprint(), "class", "mark").element("p", in.check(), "class", "quiet");
    html.end().end();
    html.start("footer").start("div", "class", "sign");
    html.element("div", "Treated by").element("div", "Read and accepted by").element("div", "Date");
    html.end().element("p", in.made(), "class", "made").end();
    html.end().end();
    html.finish();
  }
}
