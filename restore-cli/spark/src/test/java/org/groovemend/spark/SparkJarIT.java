package org.groovemend.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.jar.JarFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The jar that is given to spark-submit, beside the jar of the command line. */
class SparkJarIT {

  private static final Path JAR = Path.of(System.getProperty("groovemend.spark.jar"));
  private static final Path PLAIN = Path.of(System.getProperty("groovemend.jar"));

  @TempDir private Path dir;

  private static String java() {
    return Path.of(System.getProperty("java.home"), "bin", "java").toString();
  }

  private String run(int code, List<Object> command) throws IOException, InterruptedException {
    Path said = Files.createTempFile(dir, "said", ".txt");
    ProcessBuilder builder =
        new ProcessBuilder(command.stream().map(String::valueOf).toList())
            .redirectErrorStream(true)
            .redirectOutput(said.toFile());
    builder.environment().put("SPARK_LOCAL_IP", "127.0.0.1");
    builder.environment().put("LC_ALL", "C.UTF-8");
    Process process = builder.start();
    try {
      assertThat(process.waitFor(10, TimeUnit.MINUTES)).isTrue();
    } finally {
      process.destroyForcibly();
    }
    String text = Files.readString(said);
    assertThat(process.exitValue()).as(text).isEqualTo(code);
    return text;
  }

  @Test
  void submittedItGivesTheBytesOfTheCommandLineAndIsQuiet() throws Exception {
    Path shelf = dir.resolve("shelf");
    InventedSides.make(shelf, 3);
    List<Object> what = List.of(shelf, "--now", "2026-01-02T03:04:05Z", "--out");
    List<Object> plain = new ArrayList<>(List.of(java(), "-jar", PLAIN, "batch"));
    plain.addAll(what);
    plain.add(dir.resolve("plain"));
    run(3, plain);
    String classPath = Files.readString(Path.of(System.getProperty("groovemend.spark.classpath")));
    List<Object> submit = new ArrayList<>(List.of(java(), "-cp", classPath.strip()));
    submit.addAll(List.of("org.apache.spark.deploy.SparkSubmit", "--master", "local[2]"));
    submit.addAll(List.of("--conf", "spark.driver.host=127.0.0.1"));
    submit.addAll(List.of("--conf", "spark.driver.bindAddress=127.0.0.1", JAR));
    submit.addAll(what);
    submit.add(dir.resolve("spark"));
    String said = run(3, submit);
    assertThat(said)
        .contains("3 sides done")
        .contains("broken.wav")
        .doesNotContain(" INFO ")
        .doesNotContain("log4j")
        .doesNotContain("log level");
    assertThat(InventedSides.digests(dir.resolve("spark/sides")))
        .hasSizeGreaterThanOrEqualTo(3 * 3)
        .isEqualTo(InventedSides.digests(dir.resolve("plain/sides")));
  }

  @Test
  void itHoldsNothingOfSparkNorWhatMayNotGoInAndSaysWhatItIs() throws Exception {
    try (JarFile jar = new JarFile(JAR.toFile())) {
      assertThat(jar.stream().map(entry -> entry.getName()))
          .noneMatch(name -> name.startsWith("org/apache/spark/") || name.startsWith("scala/"))
          .noneMatch(name -> name.startsWith("org/jaudiotagger/"))
          .noneMatch(name -> name.startsWith("com/fasterxml/jackson/"))
          .contains("META-INF/LICENSES-OF-LIBRARIES.txt", "org/groovemend/spark/Main.class");
      assertThat(jar.getManifest().getMainAttributes().getValue("Implementation-Version"))
          .isNotBlank();
    }
    assertThat(run(1, List.of(java(), "-jar", JAR))).contains("start this jar with spark-submit");
  }
}
