package org.groovemend.watch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** By a clock of the test's own: no test waits. */
class WatchedFolderTest {
  private static final long SECOND = 1_000_000_000L;

  @TempDir private Path dir;

  private WatchedFolder folder;
  private long now;

  @BeforeEach
  void start() {
    folder = new WatchedFolder(dir, false, new WatchTimes(seconds(10), seconds(100)));
    now = 5;
  }

  private static Duration seconds(int n) {
    return Duration.ofSeconds(n);
  }

  /** What happens some seconds later. */
  private List<WatchEvent> after(int seconds) {
    now += seconds * SECOND;
    return folder.look(now);
  }

  private static Path ready(List<WatchEvent> events) {
    List<WatchEvent.Ready> all = readies(events);
    return all.size() == 1 ? all.get(0).file() : null;
  }

  private static List<WatchEvent.Ready> readies(List<WatchEvent> events) {
    return events.stream()
        .filter(WatchEvent.Ready.class::isInstance)
        .map(WatchEvent.Ready.class::cast)
        .toList();
  }

  private static String waiting(List<WatchEvent> events) {
    return events.stream()
        .filter(WatchEvent.Waiting.class::isInstance)
        .map(e -> ((WatchEvent.Waiting) e).why())
        .reduce("", (a, b) -> a + b);
  }

  private void judge(List<WatchEvent> events) {
    readies(events).forEach(r -> folder.judged(r.file(), r.seen()));
  }

  /**
   * @param riff size that the header gives the whole
   * @param data size that it gives the samples
   * @param bytes samples that are there
   */
  private static byte[] wav(long riff, long data, int bytes) {
    ByteBuffer b = ByteBuffer.allocate(44 + bytes).order(ByteOrder.LITTLE_ENDIAN);
    b.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt((int) riff);
    b.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    b.putShort((short) 1).putShort((short) 2).putInt(44_100).putInt(176_400);
    b.putShort((short) 4).putShort((short) 16);
    b.put("data".getBytes(StandardCharsets.US_ASCII)).putInt((int) data);
    for (int i = 0; i < bytes; i++) {
      b.put((byte) (7 * i + 1));
    }
    return b.array();
  }

  private Path write(String name, byte[] bytes) throws IOException {
    return Files.write(dir.resolve(name), bytes);
  }

  @Test
  void aFileThatStandsStillIsReadyOnce() throws IOException {
    Path a = write("a.wav", wav(36 + 400, 400, 400));
    assertEquals(List.of(), after(0));
    assertEquals(List.of(), after(9));
    List<WatchEvent> events = after(1);
    assertEquals(a, ready(events));
    assertEquals(a, ready(after(1)), "until it is judged");
    judge(events);
    assertEquals(List.of(), after(1000));
  }

  @Test
  void aGrowingFileIsWaitedForAndToldOnce() throws IOException {
    Path a = write("a.wav", wav(36 + 4000, 4000, 400));
    after(0);
    for (int k = 0; k < 5; k++) {
      Files.write(a, new byte[700], StandardOpenOption.APPEND);
      List<WatchEvent> events = after(9);
      assertEquals(k == 0 ? "it is still growing or changing" : "", waiting(events));
      assertNull(ready(events));
    }
    Files.write(a, new byte[100], StandardOpenOption.APPEND);
    assertNull(ready(after(9)));
    assertEquals(a, ready(after(10)));
  }

  @Test
  void aHeaderThatSaysMoreIsWaitedForThenJudgedAsItIs() throws IOException {
    Path a = write("a.wav", wav(36 + 4000, 4000, 400));
    after(0);
    assertEquals("the header says 4000 bytes of samples and there are 400", waiting(after(10)));
    assertEquals(List.of(), after(50));
    WatchEvent.Ready late = readies(after(40)).get(0);
    assertEquals(a, late.file());
    assertEquals("the header says 4000 bytes of samples and there are 400", late.doubt());
  }

  @Test
  void lengthsThatAreFilledInAtTheEndAreWaitedFor() throws IOException {
    for (byte[] open : List.of(wav(0, 0, 400), wav(-1, -1, 400), wav(36, 0, 400))) {
      Path a = write("a.wav", open);
      after(0);
      assertTrue(waiting(after(10)).startsWith("the header"), "told");
      assertNull(ready(after(50)));
      // size stays, the header is finished: what a capture program does when it is stopped
      try (RandomAccessFile file = new RandomAccessFile(a.toFile(), "rw")) {
        file.write(wav(36 + 400, 400, 400));
      }
      Files.setLastModifiedTime(a, java.nio.file.attribute.FileTime.fromMillis(now / 1_000_000));
      assertNull(ready(after(1)));
      List<WatchEvent> events = after(10);
      assertEquals(a, ready(events));
      assertNull(readies(events).get(0).doubt());
      Files.delete(a);
      after(1000);
    }
  }

  @Test
  void aTemporaryNameIsNotLookedAtAndTheFinalOneIs() throws IOException {
    write("a.wav.part", wav(36 + 400, 400, 400));
    write(".b.wav", wav(36 + 400, 400, 400));
    after(0);
    assertEquals(List.of(), after(50));
    Files.move(dir.resolve("a.wav.part"), dir.resolve("a.wav"));
    after(1);
    assertEquals(dir.resolve("a.wav"), ready(after(10)));
  }

  @Test
  void aJudgedFileIsKnownUnderItsNewName() throws IOException {
    Path a = write("a.wav", wav(36 + 400, 400, 400));
    after(0);
    judge(after(10));
    assumeFalse(SeenFile.of(a).key() == null, "this file system does not tell");
    Path b = Files.move(a, dir.resolve("b.wav"));
    assertEquals(List.of(new WatchEvent.Renamed(b, a)), after(1));
    assertEquals(List.of(), after(500));
    Files.write(b, new byte[4], StandardOpenOption.APPEND);
    after(1);
    assertEquals("the header says 444 bytes and there are 448", waiting(after(10)));
  }

  @Test
  void aFileThatIsReplacedIsJudgedAgain() throws IOException {
    Path a = write("a.wav", wav(36 + 400, 400, 400));
    after(0);
    judge(after(10));
    Files.move(
        write("new.part", wav(36 + 800, 800, 800)),
        a,
        java.nio.file.StandardCopyOption.ATOMIC_MOVE);
    assertEquals("it is still growing or changing", waiting(after(1)));
    assertEquals(a, ready(after(10)));
  }

  @Test
  void whatVanishesIsToldIfItWasWaitedFor() throws IOException {
    Path a = write("a.wav", wav(36 + 4000, 4000, 400));
    Path b = write("b.wav", wav(36 + 400, 400, 400));
    after(0);
    after(10);
    Files.delete(a);
    Files.delete(b);
    assertEquals(List.of(new WatchEvent.Gone(a)), after(1));
    assertEquals(List.of(), after(1));
  }

  @Test
  void aFolderThatVanishesAndComesBackLosesNothing() throws IOException {
    Path place = Files.createDirectory(dir.resolve("net"));
    folder = new WatchedFolder(place, false, new WatchTimes(seconds(10), seconds(100)));
    Path a = Files.write(place.resolve("a.wav"), wav(36 + 400, 400, 400));
    after(0);
    judge(after(10));
    Path away = dir.resolve("away");
    Files.move(place, away);
    assertEquals(List.of(new WatchEvent.Lost(place, "it is not there")), after(1));
    assertEquals(List.of(), after(1));
    Files.move(away, place);
    assertEquals(List.of(new WatchEvent.Back(place)), after(1));
    assertEquals(List.of(), after(50), "judged before and not again");
    Files.write(a, wav(36 + 800, 800, 800));
    after(1);
    assertEquals(a, ready(after(10)));
  }

  @Test
  void withoutPermissionItIsToldOnceAndTriedAgain() throws IOException {
    Path a = write("a.wav", wav(36 + 400, 400, 400));
    Files.setPosixFilePermissions(a, PosixFilePermissions.fromString("---------"));
    assumeFalse(Files.isReadable(a), "this user may read everything");
    after(0);
    assertEquals("this user may not read it", waiting(after(10)));
    assertEquals(List.of(), after(1000));
    Files.setPosixFilePermissions(a, PosixFilePermissions.fromString("rw-------"));
    assertEquals(a, ready(after(1)));
  }

  @Test
  void foldersBelowAreWatchedIfAskedFor() throws IOException {
    Path below = Files.createDirectory(dir.resolve("disc 12"));
    Path a = Files.write(below.resolve("\u00e5 \u65e5\u672c.wav"), wav(36 + 400, 400, 400));
    after(0);
    assertEquals(List.of(), after(10));
    folder = new WatchedFolder(dir, true, new WatchTimes(seconds(10), seconds(100)));
    after(0);
    assertEquals(a, ready(after(10)));
  }

  @Test
  void onceTellsWhatIsLeftWhenItHadItsTime() throws IOException {
    Path good = write("a.wav", wav(36 + 400, 400, 400));
    Path open = write("b.wav", wav(0, 0, 400));
    after(0);
    assertNull(folder.leftOver(now));
    judge(after(10));
    assertEquals(Map.of(open, "the header does not say yet how long it is"), folder.leftOver(now));
    write("later.wav", wav(0, 0, 400));
    after(1);
    assertEquals(1, folder.leftOver(now).size(), "what came later is not waited for");
    Files.delete(open);
    after(1);
    assertEquals(Map.of(), folder.leftOver(now));
    assertTrue(Files.exists(good));
  }

  @Test
  void noHandleIsKept() throws IOException {
    Path handles = Path.of("/proc/self/fd");
    assumeFalse(Files.notExists(handles), "handles cannot be counted here");
    Path a = write("a.wav", wav(0, 0, 400));
    after(0);
    after(10);
    try (var all = Files.list(handles)) {
      assertTrue(all.noneMatch(h -> leadsTo(h, a)));
    }
  }

  private static boolean leadsTo(Path handle, Path file) {
    try {
      return Files.readSymbolicLink(handle).equals(file.toRealPath());
    } catch (IOException e) {
      return false;
    }
  }
}
