package org.groovemend.review;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.groovemend.report.PageColours;
import org.groovemend.review.door.Reply;
import org.groovemend.review.door.Route;

/**
 * The files of the page, from a list: there is no path to anything else. They hold nothing of the
 * side, so they are given without the token, which the page has only after it was loaded.
 */
final class Page {

  private static final List<String> SCRIPTS =
      List.of(
          "main",
          "api",
          "edits",
          "list",
          "side-strip",
          "place",
          "view",
          "waves",
          "spectra",
          "sound",
          "verdict",
          "rules",
          "sign",
          "keys",
          "filter",
          "words");

  private Page() {}

  static void addTo(Map<String, Route> routes) throws IOException {
    put(routes, "/", "text/html; charset=utf-8", resource("index.html"));
    put(routes, "/page.css", "text/css; charset=utf-8", resource("page.css"));
    put(
        routes,
        "/colours.css",
        "text/css; charset=utf-8",
        PageColours.CSS.getBytes(StandardCharsets.UTF_8));
    // browsers ask for it by themselves
    put(routes, "/favicon.ico", "image/x-icon", new byte[0]);
    for (String script : SCRIPTS) {
      String name = script + ".js";
      put(routes, "/" + name, "text/javascript; charset=utf-8", resource(name));
    }
  }

  private static void put(Map<String, Route> routes, String path, String type, byte[] content) {
    routes.put(path, new Route("GET", false, request -> Reply.of(type, content)));
  }

  private static byte[] resource(String name) throws IOException {
    try (InputStream in = Page.class.getResourceAsStream("page/" + name)) {
      if (in == null) {
        throw new IOException("the program lacks its page " + name + "; build it anew");
      }
      return in.readAllBytes();
    }
  }
}
