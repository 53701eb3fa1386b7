package org.groovemend.hum;

/**
 * Sounds a model at any stretch of a side. Phases are computed anew at every knot and every {@value
 * #RUN} samples from it, and turned evenly between: a sample depends on its number only, never on
 * where a block begins. One instance per thread.
 */
final class Oscillators {
  private static final int RUN = 32;

  private final HumModel model;
  private final int highest;
  private final int hop;
  private final HumModel.Line[][] byChannel;

  Oscillators(HumModel model, int channels) {
    this.model = model;
    this.highest = model.highest();
    this.hop = (int) model.track().hop();
    this.byChannel = new HumModel.Line[channels][highest + 1];
    for (HumModel.Line line : model.lines()) {
      byChannel[line.channel()][line.harmonic()] = line;
    }
  }

  /**
   * Takes the model away from {@code x[channel][offset...]}, whose first sample is {@code first}.
   */
  void subtract(double[][] x, int offset, long first, int count) {
    long end = first + count;
    long knot = Math.max(0, Math.min(model.track().cycles().length - 2, Math.floorDiv(first, hop)));
    long run = knot * hop + Math.floorDiv(first - knot * hop, RUN) * RUN;
    while (run < end) {
      long border = knot == model.track().cycles().length - 2 ? Long.MAX_VALUE : (knot + 1) * hop;
      long until = Math.min(border, run + RUN);
      one(x, offset, first, end, run, until, (int) knot);
      run = until;
      if (run == border) {
        knot++;
      }
    }
  }

  private void one(double[][] x, int offset, long first, long end, long run, long until, int knot) {
    double from = model.track().at(run);
    double step = 2 * Math.PI * (model.track().at(run + RUN) - from) / RUN;
    double angle = 2 * Math.PI * (from - Math.rint(from));
    double re = StrictMath.cos(angle);
    double im = StrictMath.sin(angle);
    double turnRe = StrictMath.cos(step);
    double turnIm = StrictMath.sin(step);
    for (long n = run; n < Math.min(until, end); n++) {
      if (n >= first) {
        double share = Math.max(0, Math.min(1, (n - knot * (double) hop) / hop));
        double lineRe = 1;
        double lineIm = 0;
        for (int k = 1; k <= highest; k++) {
          double next = lineRe * re - lineIm * im;
          lineIm = lineRe * im + lineIm * re;
          lineRe = next;
          for (int c = 0; c < x.length; c++) {
            HumModel.Line line = byChannel[c][k];
            if (line != null) {
              double a = line.re()[knot] + share * (line.re()[knot + 1] - line.re()[knot]);
              double b = line.im()[knot] + share * (line.im()[knot + 1] - line.im()[knot]);
              x[c][offset + (int) (n - first)] -= a * lineRe - b * lineIm;
            }
          }
        }
      }
      double next = re * turnRe - im * turnIm;
      im = re * turnIm + im * turnRe;
      re = next;
    }
  }
}
