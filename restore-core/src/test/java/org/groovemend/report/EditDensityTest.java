package org.groovemend.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;

class EditDensityTest {

  private static final AudioFormat STEREO = AudioFormat.pcm(44_100, 2, 16);

  @Test
  void editsCountWhereTheyBeginAndSpreadTheirLength() {
    EditDensityBuilder builder = new EditDensityBuilder(STEREO, 100, 10);
    builder.add(0, 5, 6);
    builder.add(0, 8, 22);
    builder.add(1, 99, 100);
    EditDensity d = builder.build();
    assertThat(d.counts()[0]).containsExactly(2, 0, 0, 0, 0, 0, 0, 0, 0, 0);
    assertThat(d.counts()[1]).containsExactly(0, 0, 0, 0, 0, 0, 0, 0, 0, 1);
    assertThat(d.changed()[0]).startsWith(0.3f, 1.0f, 0.2f, 0.0f);
    assertThat(d.changed()[1]).endsWith(0f, 0.1f);
    assertThat(d.total()).isEqualTo(3);
    assertThat(d.most()).isEqualTo(2);
    assertThat(d.largestChangedShare()).isEqualTo(1);
  }

  @Test
  void editOutsideTheSideIsAnError() {
    EditDensityBuilder builder = new EditDensityBuilder(STEREO, 100, 10);
    assertThatThrownBy(() -> builder.add(0, 99, 101))
        .hasMessage("edit 99 to 101 is empty or outside 0 to 100");
    assertThatThrownBy(() -> builder.add(0, 5, 5)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void doubtfulEditsAreThoseNearestTheirThresholdInWhateverOrderTheyCome() {
    List<EditLine> all = new ArrayList<>();
    for (int i = 0; i < 500; i++) {
      double statistic = 5 + (i * 37 % 500) * 0.1;
      all.add(
          new EditLine(i + 1, "clicks", i % 2, i * 100L, i * 100L + 9, statistic, 5, "lsar", -70));
    }
    Collections.shuffle(all, new Random(4));
    DoubtfulEdits kept = new DoubtfulEdits(10);
    all.forEach(kept::offer);
    List<EditLine> sorted = new ArrayList<>(all);
    sorted.sort(java.util.Comparator.comparingDouble(EditLine::margin));
    assertThat(kept.lines()).isEqualTo(sorted.subList(0, 10));
    Collections.shuffle(all, new Random(5));
    DoubtfulEdits again = new DoubtfulEdits(10);
    all.forEach(again::offer);
    assertThat(again.lines()).isEqualTo(kept.lines());
  }
}
