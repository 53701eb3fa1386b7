package org.groovemend.report;

/**
 * The page's style sheet: a printed sheet, light or dark as the reader's screen prefers, light on
 * paper.
 */
final class PageStyle {

  static final String CSS =
      PageColours.CSS
          + """
          *{box-sizing:border-box}
          body{margin:0;background:var(--paper);color:var(--ink);
            font:1rem/1.5 Georgia,"Times New Roman",serif;overflow-wrap:anywhere}
          main,header,footer{max-width:66rem;margin:0 auto;padding:0 1.25rem}
          header{padding-top:2rem}
          .kind{font-variant:small-caps;letter-spacing:.12em;color:var(--muted);margin:0}
          h1{font-size:1.7rem;line-height:1.2;margin:.2rem 0 .6rem;font-weight:normal}
          header .rule{border-top:3px double var(--ink);margin:.8rem 0}
          .summary{font-size:1.1rem;max-width:46rem}
          .made{color:var(--muted);margin:.2rem 0 0}
          section{border-top:1px solid var(--rule);padding:1.2rem 0 .6rem;margin-top:1rem}
          h2{font-size:1.15rem;margin:0 0 .6rem;font-weight:bold}
          h2 .number{color:var(--muted);font-weight:normal;margin-right:.7em}
          h3{font-size:1rem;margin:1.1rem 0 .3rem}
          p{margin:.3rem 0 .7rem;max-width:46rem}
          .wide{overflow-x:auto}
          .wide td{overflow-wrap:normal}
          .wide:focus-visible{outline:2px solid var(--after)}
          table{border-collapse:collapse;width:100%;font-size:.95rem;margin:.3rem 0 .9rem}
          caption{text-align:left;color:var(--muted);padding-bottom:.2rem}
          th,td{text-align:left;vertical-align:top;padding:.28rem .9rem .28rem 0;
            border-bottom:1px solid var(--rule)}
          thead th{border-bottom:1px solid var(--ink);font-weight:normal;color:var(--muted)}
          tbody th{font-weight:normal}
          th,.value{overflow-wrap:break-word}
          .value{font-variant-numeric:tabular-nums;white-space:nowrap}
          .facts th:first-child{width:27%}
          .facts th:nth-child(2){width:21%}
          .facts .value{white-space:normal}
          .says{color:var(--muted)}
          .right{text-align:right}
          .hash,code{font-family:"DejaVu Sans Mono",Menlo,Consolas,monospace;font-size:.82rem}
          pre{margin:.2rem 0 .9rem;padding:.5rem .8rem;border-left:3px solid var(--after);
            white-space:pre-wrap;overflow-wrap:anywhere}
          .quiet{color:var(--muted)}
          .state{font-variant:small-caps;letter-spacing:.06em;margin-left:.6em;color:var(--after)}
          .state.out{color:var(--muted)}
          figure{margin:.6rem 0 1.2rem;border:1px solid var(--rule);padding:.5rem}
          figure .wide{background:#SHEET;padding:.2rem}
          figure img{display:block;width:100%;min-width:44rem;height:auto}
          figcaption{color:var(--muted);font-size:.92rem;padding-top:.4rem}
          .numbers{width:auto}
          .numbers td,.numbers thead th+th{text-align:right}
          .numbers td.words,.numbers thead th.words{text-align:left}
          .clips{display:grid;grid-template-columns:repeat(auto-fit,minmax(17rem,1fr));gap:.5rem;
            margin:.3rem 0 1.1rem}
          .clip{margin:0}
          .clip figcaption{padding:0 0 .3rem}
          audio{display:block;width:100%}
          .care{border-left:3px solid var(--before);padding-left:.9rem}
          li{margin:.25rem 0;max-width:46rem}
          .sign{display:grid;grid-template-columns:2fr 1fr;gap:1.6rem;margin:2.6rem 0 2rem}
          .sign div{border-top:1px solid var(--ink);color:var(--muted);font-size:.9rem;
            padding-top:.2rem}
          @media (max-width:40rem){
            main,header,footer{padding:0 .8rem}
            .stack tr,.stack th:first-child,.stack td{display:block;width:auto}
            .stack thead{display:none}
            .stack tbody th{border:0;padding-bottom:0;color:var(--muted)}
            .stack td{border:0;padding:0 0 .1rem}
            .stack tr{border-bottom:1px solid var(--rule);padding:.25rem 0}
            .sign{grid-template-columns:1fr}
          }
          @media print{
            :root{LIGHTVARS}
            body{background:none;font-size:10pt}
            main,header,footer{max-width:none;padding:0}
            figure,tr,pre,.sign{break-inside:avoid}
            h2,h3{break-after:avoid}
            figure img{min-width:0}
            .wide{overflow:visible}
            audio{display:none}
          }
          @page{margin:16mm}
          """
              .replace("#SHEET", Palette.css(Palette.PAPER))
              .replace("LIGHTVARS", PageColours.LIGHT);

  private PageStyle() {}
}
