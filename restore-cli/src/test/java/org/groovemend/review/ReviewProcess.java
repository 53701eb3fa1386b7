package org.groovemend.review;

import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** {@code groovemend review} as a process of its own, which can be killed. */
final class ReviewProcess implements Closeable {

  private static final Pattern ADDRESS = Pattern.compile("\"address\" : \"([^\"]+)\"");

  final Process process;
  private final Path errors;
  private String address;

  /** Starts it and waits for its address, or for its end. */
  ReviewProcess(Path ledger, String... more) throws IOException {
    errors = Files.createTempFile("review-test-", ".err");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx512m", "-Djava.awt.headless=true", "-cp"));
    command.add(System.getProperty("java.class.path"));
    command.addAll(
        List.of("org.groovemend.cli.Main", "review", ledger.toString(), "--no-browser", "--json"));
    command.addAll(List.of(more));
    process = new ProcessBuilder(command).redirectError(errors.toFile()).start();
    BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
    for (String line = out.readLine(); line != null && address == null; ) {
      Matcher found = ADDRESS.matcher(line);
      if (found.find()) {
        address = found.group(1);
      } else {
        line = out.readLine();
      }
    }
  }

  /** Null if it ended without one. */
  String address() {
    return address;
  }

  String errors() throws IOException {
    return Files.readString(errors);
  }

  int await() throws InterruptedException {
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      throw new IllegalStateException("the review did not end");
    }
    return process.exitValue();
  }

  /** As a power cut would. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    await();
  }

  @Override
  public void close() throws IOException {
    process.destroyForcibly();
    Files.deleteIfExists(errors);
  }
}
