package org.groovemend.review;

/**
 * Limits of the JDK's HTTP server, which takes them from system properties when it is first used;
 * what a person set stays.
 */
final class ServerLimits {

  private ServerLimits() {}

  static void set() {
    limit("sun.net.httpserver.maxReqTime", "20"); // seconds until a request must be there
    limit("sun.net.httpserver.maxRspTime", "120");
    limit("sun.net.httpserver.maxReqHeaders", "60");
    limit("sun.net.httpserver.maxReqHeaderSize", "32768");
    limit("sun.net.httpserver.maxIdleConnections", "32");
    limit("jdk.httpserver.maxConnections", "64");
    limit("sun.net.httpserver.nodelay", "true"); // or small answers wait some 40 ms
  }

  private static void limit(String property, String value) {
    if (System.getProperty(property) == null) {
      System.setProperty(property, value);
    }
  }
}
