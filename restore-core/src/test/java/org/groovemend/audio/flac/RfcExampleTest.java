package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The first example file of RFC 9639 appendix D: one stereo sample, both channels with wasted bits.
 * The bytes are from memory; that they are right shows in both checksums, in the MD5 of the samples
 * (computed by another program too) and in the reference program flac accepting the file.
 */
class RfcExampleTest {

  private static final String FILE =
      "664c614380000022100010000000" // fLaC, STREAMINFO: blocks of 4096
          + "0f00000f0ac442f000000001" // frames of 15 bytes, 44.1 kHz, 2 channels, 16 bits, 1
          // sample
          + "3e84b41807dc690307586a3dad1a2e0f" // MD5
          + "fff869180000bf0358fd03128baa9a";

  @TempDir Path folder;

  @Test
  void decodesToTheSamplesOfTheRfc() throws Exception {
    Path file = folder.resolve("example1.flac");
    Files.write(file, HexFormat.of().parseHex(FILE));
    long[][] words = {{25588}, {10416}};

    assertThat(FlacTestFiles.read(file)).isDeepEqualTo(words);
    FlacTestFiles.assertComesBack(file, AudioFormat.pcm(44_100, 2, 16), words);
  }

  @Test
  void referenceProgramAcceptsTheBytes() throws Exception {
    Tool.FLAC.assumeInstalled();
    Path file = folder.resolve("example1.flac");
    Files.write(file, HexFormat.of().parseHex(FILE));
    Tool.FLAC.run(folder, "-t", file);
  }
}
