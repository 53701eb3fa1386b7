package org.groovemend.leadin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LeadInFinderTest {

  private static final int RATE = 44_100;

  /** The stretch lies between, and holds at least a share of what is there. */
  private static void found(LeadInFinding f, double from, double to, double share) {
    assertTrue(f.found(), f.reason());
    double start = f.startFrame() / (double) RATE;
    double end = f.endFrame() / (double) RATE;
    String where = start + " to " + end + " s: " + f.reason();
    assertTrue(start >= from - 1e-9, where);
    assertTrue(end <= to + 1e-9, where);
    assertTrue(end - start >= share * (to - from), where);
    assertTrue(f.confidence() > 0, where);
  }

  private static Groove side(
      int channels, double leadIn, double music, double noiseRms, long seed) {
    return new Groove(RATE, channels, leadIn + music, seed)
        .noise(noiseRms, 99)
        .skip(leadIn)
        .music(0.2, music);
  }

  @Test
  void findsLeadInsOfAllLengthsInMonoAndStereo() {
    for (double leadIn : new double[] {1, 1.8, 3, 8, 20}) {
      for (int channels = 1; channels <= 2; channels++) {
        for (long seed = 1; seed <= (leadIn > 5 ? 1 : 2); seed++) {
          found(side(channels, leadIn, 4, 0.004, seed).find(), 0, leadIn, leadIn < 1.5 ? 0.5 : 0.8);
        }
      }
    }
  }

  @Test
  void findsItAtHighRatesAndAtAllNoiseLevels() {
    for (int rate : new int[] {8_000, 48_000, 96_000, 192_000}) {
      LeadInFinding f = new Groove(rate, 1, 5, 3).noise(0.004, 99).skip(3).music(0.2, 2).find();
      assertTrue(f.found(), rate + ": " + f.reason());
      assertTrue(f.endFrame() <= 3L * rate && f.frames() > 2L * rate, rate + ": " + f);
    }
    for (double rms : new double[] {0.00001, 0.0005, 0.01, 0.03}) {
      found(side(1, 3, 4, rms, 5).find(), 0, 3, 0.7);
    }
  }

  @Test
  void startsAfterTheNeedleDropAndAfterWhatTheEquipmentDoesBefore() {
    Groove g =
        new Groove(RATE, 2, 12, 4)
            .noise(0.00005, 1.5)
            .skip(1.5)
            .thump(0.3)
            .noise(0.003, 99)
            .skip(4)
            .music(0.2, 6);
    found(g.find(), 1.5, 5.5, 0.6);
    // muted until the drop: digital silence is no groove
    g = new Groove(RATE, 2, 12, 5).skip(2).thump(0.3).noise(0.003, 99).skip(3).music(0.2, 7);
    found(g.find(), 2, 5, 0.6);
  }

  @Test
  void clicksCrackleAndHumInTheLeadInDoNotHideIt() {
    found(side(2, 4, 5, 0.003, 6).back().clicks(0.3, 8, 4).find(), 0, 4, 0.5);
    found(side(2, 4, 5, 0.003, 7).back().clicks(0.02, 60, 4).find(), 0, 4, 0.5);
    Groove hum =
        side(2, 4, 5, 0.003, 8)
            .back()
            .tone(50, 0.01, 0.01, 9)
            .tone(150, 0.004, 0.004, 9)
            .tone(100, 0.003, 0.003, 9);
    found(hum.find(), 0, 4, 0.7);
  }

  @Test
  void musicFromTheFirstSampleIsNoLeadIn() {
    assertFalse(new Groove(RATE, 2, 10, 9).noise(0.003, 99).music(0.2, 10).find().found());
    assertFalse(new Groove(RATE, 1, 10, 9).noise(0.003, 99).music(0.02, 10).find().found());
    // held from the start: steady, yet not groove
    LeadInFinding held =
        new Groove(RATE, 2, 10, 9)
            .noise(0.003, 99)
            .tone(440, 0.1, 0.1, 10)
            .tone(660, 0.1, 0.1, 10)
            .find();
    assertFalse(held.found());
    assertTrue(held.reason().contains("tones"), held.reason());
  }

  @Test
  void loudSteadyNoiseIsNoGrooveIfTheSideIsQuieterElsewhere() {
    Groove g = new Groove(RATE, 2, 12, 10).noise(0.1, 4).skip(4).noise(0.002, 99).music(0.2, 4);
    LeadInFinding f = g.find();
    assertFalse(f.found() && f.endFrame() < 4.2 * RATE, f.toString());
  }

  @Test
  void slowBeginningsAreLeftOut() {
    // comes up from nothing over five seconds; audible as a tone 20 dB under the noise at 0.6 s
    // after its start
    Groove fade =
        new Groove(RATE, 2, 14, 11)
            .noise(0.004, 99)
            .skip(3)
            .tone(880, 0, 0.05, 5)
            .tone(1320, 0, 0.05, 5);
    found(fade.skip(5).music(0.2, 6).find(), 0, 3.4, 0.6);
  }

  @Test
  void aSideThatIsAllGrooveIsSaidToBe() {
    LeadInFinding f = new Groove(RATE, 2, 10, 12).noise(0.003, 99).find();
    found(f, 0, 10, 0.9);
    assertTrue(f.reason().contains("nothing else follows"), f.reason());
    assertTrue(f.runOut() == null);
  }

  @Test
  void findsTheRunOutAsWell() {
    LeadInFinding f = new Groove(RATE, 2, 12, 13).noise(0.003, 99).skip(3).music(0.2, 5).find();
    found(f, 0, 3, 0.8);
    LeadInFinding.RunOut out = f.runOut();
    assertTrue(out.startFrame() >= 8L * RATE && out.endFrame() <= 12L * RATE, out.toString());
    assertTrue(out.endFrame() - out.startFrame() > 2L * RATE, out.toString());
    assertTrue(side(2, 3, 5, 0.003, 14).find().runOut() == null);
  }

  @Test
  void aRestInTheMusicIsNotTakenForTheRunOut() {
    Groove g =
        new Groove(RATE, 1, 14, 16).noise(0.003, 99).skip(3).music(0.2, 3).skip(4.7).music(0.2, 2);
    LeadInFinding f = g.find();
    found(f, 0, 3, 0.8);
    long start = f.runOut().startFrame();
    assertTrue(start >= 9.7 * RATE, start / (double) RATE + " s");
  }

  @Test
  void nothingIsGuessedWhereThereIsNone() {
    LeadInFinding silence = new Groove(RATE, 2, 8, 1).find();
    assertFalse(silence.found());
    assertTrue(silence.reason().contains("no sound"), silence.reason());
    assertFalse(new Groove(RATE, 2, 8, 1).skip(2).thump(0.4).find().found());
    assertFalse(new Groove(RATE, 1, 8, 1).tone(1000, 0.5, 0.5, 8).find().found());
    LeadInFinding shortest = new Groove(RATE, 1, 0.001, 1).noise(0.01, 1).find();
    assertFalse(shortest.found());
    assertTrue(shortest.reason().contains("too short"), shortest.reason());
    assertFalse(new Groove(RATE, 1, 0, 1).find().found());
  }

  @Test
  void aStatedStretchIsTakenAsItIsOrRefusedInASentence() {
    LeadInFinding f = LeadInFinding.stated(100, 5000, 10_000);
    assertTrue(f.found() && f.stated());
    assertEquals(4900, f.frames());
    assertEquals(1.0, f.confidence());
    for (long[] bad : new long[][] {{-1, 5}, {5, 5}, {6, 5}, {0, 10_001}}) {
      String message =
          assertThrows(
                  IllegalArgumentException.class,
                  () -> LeadInFinding.stated(bad[0], bad[1], 10_000))
              .getMessage();
      assertTrue(message.contains("does not lie within the side"), message);
    }
  }

  @Test
  void lengthOfThePiecesDoesNotMatter() {
    Groove g = side(2, 3, 4, 0.004, 15);
    LeadInFinder whole = new LeadInFinder(g.format, g.x[0].length);
    whole.accept(g.x, g.x[0].length);
    assertEquals(whole.finish(), g.find());
  }
}
