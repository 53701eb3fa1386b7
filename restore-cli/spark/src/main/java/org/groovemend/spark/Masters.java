package org.groovemend.spark;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.UnknownHostException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.batch.cluster.ClusterException;

/** The place that a person named for Spark's master. */
final class Masters {

  private static final String STANDALONE = "spark://";
  private static final Pattern ADDRESS = Pattern.compile("\\[?([^\\]/]+?)\\]?:(\\d{1,5})");
  private static final Pattern LOCAL = Pattern.compile("local(?:\\[[^,\\]]+(?:,(\\d+))?\\])?");
  private static final int PATIENCE_MILLISECONDS = 5_000;

  private Masters() {}

  /**
   * Looks whether one of several masters answers: Spark itself would try for a minute, and then say
   * something else.
   *
   * @throws ClusterException if it is an address of Spark's own kind and nobody answers there
   */
  static void requireAnswer(String master) throws ClusterException {
    if (!master.startsWith(STANDALONE)) {
      return;
    }
    IOException trouble = null;
    for (String one : master.substring(STANDALONE.length()).split(",", -1)) {
      Matcher address = ADDRESS.matcher(one);
      if (!address.matches() || Integer.parseInt(address.group(2)) > 0xffff) {
        throw new ClusterException(
            "\"" + master + "\" is not an address of Spark's master such as spark://host:7077.",
            null);
      }
      try (Socket socket = new Socket()) {
        socket.connect(
            new InetSocketAddress(address.group(1), Integer.parseInt(address.group(2))),
            PATIENCE_MILLISECONDS);
        return;
      } catch (IOException e) {
        trouble = e;
      }
    }
    throw new ClusterException(
        "no Spark master answers at "
            + master
            + " ("
            + (trouble instanceof UnknownHostException
                ? "there is no such host"
                : trouble.getMessage())
            + "); nothing was done. Check --master, and whether the master runs.",
        trouble);
  }

  /**
   * Attempts that Spark makes at a task.
   *
   * @param configured value of spark.task.maxFailures
   */
  static int attempts(String master, int configured) {
    Matcher local = LOCAL.matcher(master);
    if (!local.matches()) {
      return configured;
    }
    return local.group(1) == null ? 1 : Integer.parseInt(local.group(1));
  }
}
