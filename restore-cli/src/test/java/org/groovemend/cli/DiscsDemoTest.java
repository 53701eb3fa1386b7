package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.measure.LongTermSpectrum;
import org.groovemend.simulate.FlatDisc;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a flat 78 and a flat LP to finished files by one recipe, against what was played. */
@Tag("long")
class DiscsDemoTest {

  private static final double LOWEST_HZ = 240;
  private static final double HIGHEST_HZ = 8_200;

  @TempDir private static Path dir;
  private static Path folder;
  private static Path delivery;
  private static JsonNode told;

  @BeforeAll
  static void run() throws IOException {
    folder = dir.resolve("two-discs");
    CommandRun run = CommandRun.of("demo", "--discs", "--out", folder, "--json");
    assertEquals(0, run.code(), run.err());
    told = new ObjectMapper().readTree(run.out());
    delivery = folder.resolve("recipe-delivery");
  }

  /** Largest distance of two spectra in third octaves, each re its own mean, dB. */
  private static double distance(double[][] x, int rate, double[][] music, int musicRate) {
    List<LongTermSpectrum.Band> a = bands(x, rate);
    List<LongTermSpectrum.Band> b = bands(music, musicRate);
    double mean = 0;
    for (int i = 0; i < b.size(); i++) {
      mean += (a.get(i).levelDbfs() - b.get(i).levelDbfs()) / b.size();
    }
    double most = 0;
    for (int i = 0; i < b.size(); i++) {
      most = Math.max(most, Math.abs(a.get(i).levelDbfs() - b.get(i).levelDbfs() - mean));
    }
    return most;
  }

  private static List<LongTermSpectrum.Band> bands(double[][] x, int rate) {
    LongTermSpectrum spectrum = new LongTermSpectrum(rate, x.length);
    spectrum.accept(x, x[0].length);
    return spectrum.thirdOctaves().stream()
        .filter(band -> band.centreHz() > LOWEST_HZ && band.centreHz() < HIGHEST_HZ)
        .toList();
  }

  private static double snr(double[][] x, double[][] music) {
    double cross = 0;
    double power = 0;
    double energy = 0;
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < music[c].length; i++) {
        cross += x[c][i] * music[c][i];
        power += music[c][i] * music[c][i];
        energy += x[c][i] * x[c][i];
      }
    }
    double gain = cross / power;
    return 10 * Math.log10(gain * gain * power / (energy - gain * gain * power));
  }

  /**
   * The right curve brings back the balance of what was played, where the flat transfer is many dB
   * off. Bounds for the copies: about twice what was measured, 0.33 and 0.03 dB; the transfers were
   * 3.7 and 9.7 dB off.
   */
  @Test
  void bothDiscsSoundAsTheyWerePlayed() throws IOException {
    FlatDisc coarse = FlatDisc.coarse(1);
    FlatDisc fine = FlatDisc.microgroove(2, 20);
    double flat78 =
        distance(SoundOf.file(folder.resolve("flat-78.wav")), 96_000, coarse.music(), 96_000);
    double copy78 =
        distance(
            SoundOf.file(delivery.resolve("flat-78.service.flac")), 48_000, coarse.music(), 96_000);
    double flatLp =
        distance(SoundOf.file(folder.resolve("flat-lp.wav")), 96_000, fine.music(), 96_000);
    double copyLp =
        distance(
            SoundOf.file(delivery.resolve("flat-lp.service.flac")), 48_000, fine.music(), 96_000);
    String all = flat78 + " to " + copy78 + ", " + flatLp + " to " + copyLp;
    assertTrue(flat78 > 3 && flatLp > 9, all);
    assertTrue(copy78 < 0.7 && copyLp < 0.06, all);
  }

  /**
   * What the curve alone gives is nearer the music than the transfer, the clean copy nearer yet.
   */
  @Test
  void everyStepBringsTheLpNearer() throws IOException {
    double[][] music = FlatDisc.microgroove(2, 20).music();
    double transfer = snr(SoundOf.file(folder.resolve("flat-lp.wav")), music);
    double objective = snr(SoundOf.file(delivery.resolve("flat-lp.objective.wav")), music);
    double clean = snr(SoundOf.file(delivery.resolve("flat-lp.restored.wav")), music);
    String all = transfer + ", " + objective + ", " + clean;
    assertTrue(objective > 16 && clean > objective + 4 && transfer < 0, all);
  }

  @Test
  void formsAndLengthsAreThoseOfTheRecipe() throws IOException {
    assertTrue(told.get("holds").asBoolean());
    try (SideReader copy = SideFiles.open(delivery.resolve("flat-78.service.flac"))) {
      assertEquals(AudioFormat.pcm(48_000, 1, 16), copy.format(), "a mono groove, truly mono");
      assertEquals(Math.ceil(30 * 48_000 / 76.59 * (7200.0 / 92)), copy.frames(), 1);
    }
    try (SideReader copy = SideFiles.open(delivery.resolve("flat-lp.service.flac"))) {
      assertEquals(AudioFormat.pcm(48_000, 2, 16), copy.format());
      assertEquals(20 * 48_000, copy.frames());
    }
    for (JsonNode copy : told.get("copies")) {
      if (copy.get("kind").asText().equals("SERVICE")) {
        assertEquals(-23, copy.at("/level/loudness/integratedLufs").asDouble(), 0.05);
      }
    }
    assertEquals(1200, ImageIO.read(folder.resolve("spectra.png").toFile()).getWidth());
    assertTrue(Files.readString(folder.resolve("recipe.yaml")).startsWith("# From two flat"));
  }
}
