package org.groovemend.spark;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.groovemend.ledger.Sha256;

/** A shelf of short invented sides, written by the JDK. */
final class InventedSides {

  private static final int RATE = 22_050;

  private InventedSides() {}

  static void make(Path shelf, int sides) throws IOException {
    Files.createDirectories(shelf);
    for (int i = 0; i < sides; i++) {
      write(shelf.resolve("schöne Seite " + i + ".wav"), i);
    }
    Files.writeString(shelf.resolve("broken.wav"), "no sound");
  }

  private static void write(Path file, long seed) throws IOException {
    Random random = new Random(seed);
    int frames = 5 * RATE / 2;
    byte[] words = new byte[2 * frames];
    for (int i = 0; i < frames; i++) {
      double v = 0.003 * random.nextGaussian() + (i < RATE ? 0 : 0.2 * Math.sin(i * 0.06));
      v += i > 6 * RATE / 5 && i % 3000 < 9 ? 0.5 * Math.cos(1.3 * (i % 3000)) : 0;
      int word = (int) Math.round(v * Short.MAX_VALUE);
      words[2 * i] = (byte) word;
      words[2 * i + 1] = (byte) (word >> 8);
    }
    AudioFormat format = new AudioFormat(RATE, 16, 1, true, false);
    AudioSystem.write(
        new AudioInputStream(new ByteArrayInputStream(words), format, frames),
        AudioFileFormat.Type.WAVE,
        file.toFile());
  }

  /** Digest of every file below a folder, by name. */
  static Map<String, String> digests(Path folder) throws IOException {
    Map<String, String> digests = new TreeMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        digests.put(folder.relativize(file).toString(), Sha256.of(file));
      }
    }
    return digests;
  }
}
