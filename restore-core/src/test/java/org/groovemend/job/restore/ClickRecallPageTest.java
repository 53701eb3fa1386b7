package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.groovemend.click.ClickRecall;
import org.groovemend.report.Figure;
import org.junit.jupiter.api.Test;

class ClickRecallPageTest {
  private static ClickRecall recall(int... found) {
    List<ClickRecall.Size> sizes = new java.util.ArrayList<>();
    for (int i = 0; i < found.length; i++) {
      sizes.add(new ClickRecall.Size(10 + 6.0 * i, 20, found[i], 0.1, 0.9));
    }
    return new ClickRecall(ClickRecall.STANDARD, 8, sizes);
  }

  @Test
  void theSentenceNamesTheSizeFromWhichNineInTenAreFound() {
    assertThat(ClickRecallPage.found(recall(0, 12, 18, 20)).value()).isEqualTo("from 22");
    // a size that is found less often ends the good news
    assertThat(ClickRecallPage.found(recall(0, 20, 17, 20)).value()).isEqualTo("from 28");
    assertThat(ClickRecallPage.found(recall(0, 2, 3, 12)).value()).isEqualTo("60 %");
  }

  @Test
  void theChartSaysInWordsWhatItShowsAndWhoseShapesTheyWere() {
    Figure figure = ClickRecallPage.figures(recall(0, 12, 18, 20)).get(0);
    assertThat(figure.altText()).contains("10 dB 0 %", "28 dB 100 %");
    assertThat(figure.caption()).contains("standard shapes");
    ClickRecall own = new ClickRecall(ClickRecall.OF_SIDE, 9, recall(1, 2).sizes());
    assertThat(ClickRecallPage.figures(own).get(0).caption())
        .contains("9 of this side's own clicks");
  }

  @Test
  void nothingTriedShowsNothing() {
    assertThat(ClickRecallPage.found(null)).isNull();
    assertThat(ClickRecallPage.figures(null)).isEmpty();
    assertThat(ClickRecallPage.figures(recall())).isEmpty();
  }
}
