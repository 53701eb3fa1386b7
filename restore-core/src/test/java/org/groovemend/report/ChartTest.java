package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.Collections;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

class ChartTest {
  private static Chart chart(double y) {
    return new Chart(
        "size (dB)",
        "share",
        new Chart.Axis(0, 10, List.of(new Chart.Tick(5, "5"))),
        Chart.Axis.share(),
        List.of(new Chart.Series("a", true, List.of(new Chart.Point(5, y, y, y)))),
        false);
  }

  private static int lowestBlue(Chart chart) throws Exception {
    return lowestBlue(image(Pictures.chart(chart)));
  }

  private static BufferedImage image(byte[] png) throws Exception {
    return ImageIO.read(new ByteArrayInputStream(png));
  }

  private static int lowestBlue(BufferedImage image) {
    int lowest = -1;
    for (int row = 0; row < image.getHeight(); row++) {
      for (int x = 0; x < image.getWidth(); x++) {
        if ((image.getRGB(x, row) & 0xffffff) == Palette.AFTER_DEEP) {
          lowest = row;
        }
      }
    }
    return lowest;
  }

  @Test
  void higherValuesStandHigherAndOthersAreDrawnAtTheEdge() throws Exception {
    int half = lowestBlue(chart(0.5));
    int all = lowestBlue(chart(1));
    assertThat(half - all).isBetween(148, 152); // half of an area of 300
    assertThat(lowestBlue(chart(7))).isEqualTo(all);
    assertThat(Pictures.chart(chart(0.5))).isEqualTo(Pictures.chart(chart(0.5)));
  }

  @Test
  void moreSeriesThanMarksAreRefused() {
    Chart one = chart(1);
    assertThatThrownBy(
            () ->
                new Chart(
                    "x", "y", one.x(), one.y(), Collections.nCopies(5, one.series().get(0)), false))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void panelsStandInRowsOfTwo() throws Exception {
    Chart empty =
        new Chart("x", "y", chart(1).x(), chart(1).y(), List.of(), false); // same height, no mark
    BufferedImage one = image(Pictures.chart(chart(0.5)));
    BufferedImage three = image(Pictures.charts(List.of(empty, empty, chart(0.5))));
    assertThat(three.getWidth()).isEqualTo(one.getWidth());
    assertThat(three.getHeight()).isEqualTo(2 * one.getHeight());
    assertThat(lowestBlue(three)).isEqualTo(one.getHeight() + lowestBlue(one));
  }
}
