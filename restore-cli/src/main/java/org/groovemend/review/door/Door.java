package org.groovemend.review.door;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpHandler;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Lets in the page's own requests and nothing else. In this order: the host must be this server's
 * address (a name that leads here is another site's trick), the origin, if one is told, this page
 * (also for pages on other ports of this machine), path and query plain, the method the one of the
 * path, the body short and JSON, and whatever is about the side or changes something needs the
 * token in a header, which no foreign page can send without being allowed to. Nothing is ever
 * allowed to other origins.
 *
 * <p>docs/explanation/review.md says why each of these.
 */
public final class Door implements HttpHandler {

  /** Header with the token. */
  public static final String TOKEN = "Groovemend-Token";

  public static final int MOST_BODY_BYTES = 1 << 16;

  private static final int MOST_QUERY = 300;
  private static final Pattern PATH = Pattern.compile("/[a-z0-9./-]{0,60}");

  private final String host;
  private final Keys keys;
  private final Map<String, Route> routes;

  /**
   * @param host address and port, as browsers name them in the header Host
   * @param routes by exact path
   */
  public Door(String host, Keys keys, Map<String, Route> routes) {
    this.host = host;
    this.keys = keys;
    this.routes = Map.copyOf(routes);
  }

  @Override
  public void handle(HttpExchange exchange) throws IOException {
    try (exchange) {
      Reply reply;
      try {
        reply = admit(exchange);
      } catch (Refusal e) {
        reply = Reply.refused(e.status(), e.getMessage());
      } catch (IllegalArgumentException e) {
        reply = Reply.refused(400, said(e));
      } catch (IllegalStateException e) {
        reply = Reply.refused(409, said(e));
      } catch (IOException e) {
        reply = Reply.refused(500, said(e));
      } catch (RuntimeException e) {
        reply = Reply.refused(500, "A fault of groovemend: " + e);
      }
      send(exchange, reply);
    }
  }

  private static String said(Exception e) {
    return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
  }

  private Reply admit(HttpExchange exchange) throws IOException {
    Headers headers = exchange.getRequestHeaders();
    requireHost(headers);
    requireOrigin(headers);
    String path = exchange.getRequestURI().getRawPath();
    if (path == null || !PATH.matcher(path).matches() || path.contains("..")) {
      throw new Refusal(404, "There is no such page.");
    }
    Route route = routes.get(path);
    if (route == null) {
      throw new Refusal(404, "There is no such page.");
    }
    if (!exchange.getRequestMethod().equals(route.method())) {
      throw new Refusal(405, "Here one can only " + route.method() + ".");
    }
    if (route.guarded() && !keys.fits(only(headers, TOKEN))) {
      throw new Refusal(
          403, "The token is missing or wrong: open the address that groovemend review printed.");
    }
    String query = exchange.getRequestURI().getRawQuery();
    if (query != null && query.length() > MOST_QUERY) {
      throw new Refusal(414, "The address is too long.");
    }
    byte[] body = body(exchange, headers, route.method().equals("POST"));
    return route.answer().to(new Request(Query.parse(query), body));
  }

  private void requireHost(Headers headers) {
    if (!host.equals(only(headers, "Host"))) {
      throw new Refusal(421, "This server answers only to its own address.");
    }
  }

  private void requireOrigin(Headers headers) {
    List<String> origins = headers.get("Origin");
    if (origins != null && !origins.equals(List.of("http://" + host))) {
      throw new Refusal(403, "Other pages may not ask here.");
    }
    // browsers tell in it whether another site, or another port of this machine, is behind a
    // request
    List<String> sites = headers.get("Sec-Fetch-Site");
    if (sites != null && !sites.equals(List.of("same-origin")) && !sites.equals(List.of("none"))) {
      throw new Refusal(403, "Other pages may not ask here.");
    }
  }

  /** The one value of a header; null if it is not there, or there twice. */
  private static String only(Headers headers, String name) {
    List<String> values = headers.get(name);
    return values != null && values.size() == 1 ? values.get(0) : null;
  }

  private static byte[] body(HttpExchange exchange, Headers headers, boolean wanted)
      throws IOException {
    if (headers.containsKey("Transfer-Encoding")) {
      throw new Refusal(411, "The length of a request must be told.");
    }
    String told = only(headers, "Content-Length");
    if (!wanted) {
      if (told != null && !told.equals("0")
          || told == null && headers.containsKey("Content-Length")) {
        throw new Refusal(400, "Nothing is to be sent here.");
      }
      return new byte[0];
    }
    if (told == null || !told.matches("\\d{1,9}")) {
      throw new Refusal(411, "The length of a request must be told.");
    }
    if (Integer.parseInt(told) > MOST_BODY_BYTES) {
      throw new Refusal(413, "The request is too long.");
    }
    if (!"application/json".equals(only(headers, "Content-Type"))) {
      throw new Refusal(415, "Only JSON is taken.");
    }
    try (InputStream in = exchange.getRequestBody()) {
      return in.readNBytes(MOST_BODY_BYTES);
    }
  }

  private static void send(HttpExchange exchange, Reply reply) throws IOException {
    Headers headers = exchange.getResponseHeaders();
    Protection.HEADERS.forEach(headers::set);
    headers.set("Content-Type", reply.type());
    exchange.sendResponseHeaders(
        reply.status(), reply.content().length == 0 ? -1 : reply.content().length);
    exchange.getResponseBody().write(reply.content());
  }
}
