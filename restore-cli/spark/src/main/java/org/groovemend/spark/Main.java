package org.groovemend.spark;

/** Entry for {@code spark-submit}. */
public final class Main {

  private Main() {}

  /** Runs the command and ends the process with its exit code. */
  public static void main(String[] args) {
    int code;
    try {
      code = Submitted.run(args);
    } catch (NoClassDefFoundError e) {
      if (!String.valueOf(e.getMessage()).startsWith("org/apache/spark/")) {
        throw e;
      }
      System.err.println(
          "groovemend: Spark is not there; start this jar with spark-submit, not with java -jar.");
      code = 1;
    }
    System.exit(code);
  }
}
