package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The launcher in a tree of empty sources, with stand-ins for Maven and Java: it is the building
 * that is tested.
 */
@Timeout(60)
class LauncherTest {

  @TempDir private Path dir;
  private Path cli;
  private Path jar;
  private Path lock;
  private Path builds;

  @BeforeEach
  void makeTree() throws IOException {
    assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "needs a POSIX shell");
    cli = Files.createDirectories(dir.resolve("tree/restore-cli"));
    jar = cli.resolve("target/groovemend.jar");
    lock = cli.resolve(".building");
    builds = dir.resolve("builds");
    Path launcher = cli.resolve("groovemend");
    Files.copy(
        Path.of(System.getProperty("basedir", "."), "groovemend"),
        launcher,
        StandardCopyOption.COPY_ATTRIBUTES);
    for (String file : List.of("pom.xml", "restore-cli/pom.xml", "restore-core/pom.xml")) {
      Path pom = dir.resolve("tree").resolve(file);
      Files.createDirectories(pom.getParent());
      Files.createFile(pom);
    }
    script("java", "echo \"started $(cat \"$JAR\") with $*\"");
    maven("sleep 1; mkdir -p restore-cli/target; echo whole >restore-cli/target/groovemend.jar");
  }

  private void maven(String work) throws IOException {
    script("mvn", "echo built >>\"$BUILDS\"\n" + work);
  }

  private void script(String name, String body) throws IOException {
    Path file = dir.resolve("bin").resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, "#!/bin/sh\n" + body + "\n");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  private record Start(Process process, Path out, Path err) {
    int code() throws InterruptedException {
      return process.waitFor();
    }

    String said() throws IOException {
      return Files.readString(out) + Files.readString(err);
    }
  }

  private Start start(Object... args) throws IOException {
    List<String> command =
        new ArrayList<>(List.of("/bin/sh", cli.resolve("groovemend").toString()));
    for (Object arg : args) {
      command.add(arg.toString());
    }
    Start start =
        new Start(null, Files.createTempFile(dir, "out", ""), Files.createTempFile(dir, "err", ""));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().remove("JAVA_HOME");
    builder.environment().put("PATH", dir.resolve("bin") + ":" + System.getenv("PATH"));
    builder.environment().put("BUILDS", builds.toString());
    builder.environment().put("JAR", jar.toString());
    builder.redirectOutput(start.out().toFile()).redirectError(start.err().toFile());
    return new Start(builder.start(), start.out(), start.err());
  }

  private int built() throws IOException {
    return Files.exists(builds) ? Files.readAllLines(builds).size() : 0;
  }

  private void waitFor(Path file) throws InterruptedException {
    while (!Files.exists(file)) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
  }

  private void succeeds(Start start) throws Exception {
    assertEquals(0, start.code(), start.said());
    assertTrue(start.said().contains("started whole with"), start.said());
    assertTrue(start.said().contains("-jar " + jar + " demo --out x y"), start.said());
    assertFalse(Files.exists(lock), "the lock is gone");
  }

  @Test
  void whatIsNewerThanItsSourcesIsNotBuilt() throws Exception {
    Files.createDirectories(jar.getParent());
    Files.writeString(jar, "whole");
    succeeds(start("demo", "--out", "x y"));
    assertEquals(0, built());
    Files.setLastModifiedTime(jar, FileTime.from(Instant.EPOCH));
    succeeds(start("demo", "--out", "x y"));
    assertEquals(1, built());
  }

  @Test
  void severalFirstStartsAtOnceBuildOnce() throws Exception {
    List<Start> starts = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      starts.add(start("demo", "--out", "x y"));
    }
    int waited = 0;
    for (Start start : starts) {
      assertEquals(0, start.code(), start.said());
      assertTrue(start.said().contains("started whole"), start.said());
      waited += start.said().contains("is building it; waiting") ? 1 : 0;
    }
    assertEquals(1, built());
    assertEquals(2, waited);
    assertFalse(Files.exists(lock), "the lock is gone");
  }

  @Test
  void aStartThatComesWhenTheJarIsThereButTheBuildIsNotDoneWaits() throws Exception {
    maven(
        "mkdir -p restore-cli/target; echo half >restore-cli/target/groovemend.jar; sleep 2;"
            + " echo whole >restore-cli/target/groovemend.jar");
    Start first = start("demo", "--out", "x y");
    waitFor(jar);
    Start second = start("demo", "--out", "x y");
    assertEquals(0, second.code(), second.said());
    assertTrue(second.said().contains("started whole"), second.said());
    assertEquals(0, first.code(), first.said());
    assertEquals(1, built());
  }

  @Test
  void theLockOfADeadStartIsTakenOverByOneOfThoseWhoWait() throws Exception {
    Process dead = new ProcessBuilder("/bin/sh", "-c", "exit 0").start();
    dead.waitFor();
    Files.createDirectories(lock);
    Files.writeString(lock.resolve("pid"), dead.pid() + "\n");
    // it may have left a jar that looks new
    Files.createDirectories(jar.getParent());
    Files.writeString(jar, "half");
    Start one = start("demo", "--out", "x y");
    Start two = start("demo", "--out", "x y");
    assertEquals(0, one.code(), one.said());
    assertEquals(0, two.code(), two.said());
    assertTrue(one.said().contains("started whole") && two.said().contains("started whole"));
    assertEquals(1, built());
    assertFalse(Files.exists(lock), "the lock is gone");
  }

  @Test
  void theLockOfALivingStartIsRespected() throws Exception {
    Files.createDirectories(lock);
    Files.writeString(lock.resolve("pid"), ProcessHandle.current().pid() + "\n");
    Start waits = start("demo", "--out", "x y");
    assertFalse(waits.process().waitFor(3, TimeUnit.SECONDS), waits.said());
    assertEquals(0, built());
    assertTrue(waits.said().contains(lock.toString()), "says what to remove: " + waits.said());
    Files.delete(lock.resolve("pid"));
    Files.delete(lock);
    succeeds(waits);
    assertEquals(1, built());
  }

  @Test
  void aFailedBuildLeavesNeitherLockNorHalfAJar() throws Exception {
    maven("mkdir -p restore-cli/target; echo half >restore-cli/target/groovemend.jar; exit 1");
    Start failed = start("demo");
    assertEquals(1, failed.code());
    assertTrue(failed.said().contains("the build failed"), failed.said());
    assertFalse(failed.said().contains("started"), failed.said());
    assertFalse(Files.exists(lock));
    assertFalse(Files.exists(jar));
  }

  @Test
  void anInterruptedStartLeavesNeitherLockNorHalfAJar() throws Exception {
    Start first = start("demo");
    waitFor(builds);
    Start second = start("demo", "--out", "x y");
    waitFor(lock.resolve("pid"));
    first.process().destroy();
    assertEquals(143, first.code());
    assertFalse(first.said().contains("started"), first.said());
    succeeds(second);
    assertEquals(2, built(), "the other one builds for itself");
  }
}
