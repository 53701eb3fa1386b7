package org.groovemend.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the server lets in, tried with bytes on a socket: browsers and client libraries would not
 * send most of this. Status codes: RFC 9110; header names: the Fetch standard and CSP Level 3.
 */
@Tag("long")
class DoorTest {

  @TempDir static Path folder;
  private static OpenReview review;

  @BeforeAll
  static void open() throws Exception {
    review = new OpenReview(folder, 2 * InventedLedger.RATE, 20);
  }

  @AfterAll
  static void close() throws IOException {
    review.close();
  }

  private static String host() {
    return "127.0.0.1:" + review.port();
  }

  private static String token() {
    return "Groovemend-Token: " + review.token();
  }

  /** Sends bytes, gives all that is answered. */
  private static String raw(String sent) throws IOException {
    try (Socket socket = new Socket(InetAddress.getByName("127.0.0.1"), review.port())) {
      socket.setSoTimeout(30_000);
      OutputStream out = socket.getOutputStream();
      try {
        out.write(sent.getBytes(StandardCharsets.ISO_8859_1));
        out.flush();
        socket.shutdownOutput();
      } catch (IOException closedAlready) {
        // refused before all was sent; what was answered counts
      }
      InputStream in = socket.getInputStream();
      StringBuilder all = new StringBuilder();
      try {
        for (int b = in.read(); b >= 0; b = in.read()) {
          all.append((char) b);
        }
      } catch (IOException reset) {
        // closed with bytes of ours unread
      }
      return all.toString();
    }
  }

  private static String get(String path, String... headers) throws IOException {
    return raw(
        "GET "
            + path
            + " HTTP/1.1\r\nHost: "
            + host()
            + "\r\nConnection: close\r\n"
            + lines(headers)
            + "\r\n");
  }

  private static String post(String path, String body, String... headers) throws IOException {
    return raw(
        "POST "
            + path
            + " HTTP/1.1\r\nHost: "
            + host()
            + "\r\nConnection: close\r\n"
            + "Content-Type: application/json\r\nContent-Length: "
            + body.length()
            + "\r\n"
            + lines(headers)
            + "\r\n"
            + body);
  }

  private static String lines(String... headers) {
    StringBuilder all = new StringBuilder();
    for (String header : headers) {
      all.append(header).append("\r\n");
    }
    return all.toString();
  }

  private static int status(String answer) {
    return answer.startsWith("HTTP/1.1 ") ? Integer.parseInt(answer.substring(9, 12)) : -1;
  }

  /** Nothing of the side, of the token or of the decisions is in a refusal. */
  private static void assertRefused(String answer, int status) {
    assertThat(status(answer)).as(answer).isEqualTo(status);
    assertThat(answer).doesNotContain(review.token()).doesNotContain("sampleRateHz");
    assertThat(answer.toLowerCase()).doesNotContain("access-control-allow");
  }

  @Test
  void thePageAndWhoHasTheTokenAreLetIn() throws IOException {
    assertThat(status(get("/"))).isEqualTo(200);
    String side = get("/api/side", token());
    assertThat(status(side)).isEqualTo(200);
    assertThat(side).contains("\"edits\":20");
    assertThat(status(get("/api/side", token(), "Origin: http://" + host()))).isEqualTo(200);
  }

  @Test
  void listensOnTheLoopbackAddressAlone() throws Exception {
    for (NetworkInterface network : Collections.list(NetworkInterface.getNetworkInterfaces())) {
      for (InetAddress address : Collections.list(network.getInetAddresses())) {
        if (address.isLoopbackAddress()) {
          continue;
        }
        boolean reached;
        try (Socket socket = new Socket(address, review.port())) {
          reached = socket.isConnected();
        } catch (IOException refused) {
          reached = false;
        }
        assertThat(reached).as(address.toString()).isFalse();
      }
    }
  }

  @Test
  void everyAnswerForbidsWhatABrowserNeedNotDo() throws IOException {
    for (String answer :
        List.of(
            get("/"), get("/main.js"), get("/api/side", token()), get("/api/side"), get("/no"))) {
      String head = answer.substring(0, answer.indexOf("\r\n\r\n")).toLowerCase();
      assertThat(head)
          .contains("content-security-policy: default-src 'none'; script-src 'self';")
          .contains("frame-ancestors 'none'")
          .contains("x-content-type-options: nosniff")
          .contains("referrer-policy: no-referrer")
          .contains("cache-control: no-store")
          .contains("x-frame-options: deny")
          .doesNotContain("access-control")
          .doesNotContain("set-cookie");
      assertThat(head).doesNotContain("unsafe-inline").doesNotContain("unsafe-eval");
    }
  }

  @Test
  void nothingOfThePageComesFromElsewhere() throws IOException {
    for (String path : List.of("/", "/page.css", "/colours.css", "/main.js", "/api.js")) {
      assertThat(get(path)).as(path).doesNotContain("http://").doesNotContain("https://");
    }
  }

  @Test
  void otherHostsAreRefused() throws IOException {
    for (String other :
        List.of(
            "evil.example",
            "evil.example:" + review.port(),
            "localhost:" + review.port(),
            "127.0.0.1",
            "127.0.0.1:" + (review.port() + 1),
            "[::1]:" + review.port(),
            "")) {
      String request = "GET /api/side HTTP/1.1\r\nHost: " + other + "\r\n" + token() + "\r\n";
      assertRefused(raw(request + "Connection: close\r\n\r\n"), 421);
    }
    String twice = "Host: " + host() + "\r\nHost: evil.example\r\n";
    assertRefused(
        raw("GET /api/side HTTP/1.1\r\n" + twice + token() + "\r\nConnection: close\r\n\r\n"), 421);
    assertRefused(raw("GET / HTTP/1.1\r\nConnection: close\r\n\r\n"), 421);
  }

  @Test
  void otherOriginsAreRefused() throws IOException {
    for (String origin :
        List.of(
            "http://evil.example",
            "null",
            "https://" + host(),
            "http://127.0.0.1:1",
            "http://" + host() + ".evil.example")) {
      assertRefused(get("/api/side", token(), "Origin: " + origin), 403);
      assertRefused(post("/api/back", "{}", token(), "Origin: " + origin), 403);
    }
    assertRefused(get("/api/side", token(), "Sec-Fetch-Site: cross-site"), 403);
    assertRefused(get("/", "Sec-Fetch-Site: same-site"), 403);
    assertThat(status(get("/", "Sec-Fetch-Site: none"))).isEqualTo(200);
  }

  @Test
  void aPreflightGetsNothing() throws IOException {
    String answer =
        raw(
            "OPTIONS /api/decide HTTP/1.1\r\nHost: "
                + host()
                + "\r\nConnection: close\r\n"
                + "Access-Control-Request-Method: POST\r\n\r\n");
    assertRefused(answer, 405);
  }

  @Test
  void withoutTheRightTokenThereIsNothing() throws IOException {
    String token = review.token();
    for (String path : List.of("/api/side", "/api/edits", "/api/marks", "/api/decisions")) {
      assertRefused(get(path), 403);
      assertRefused(get(path, "Groovemend-Token: "), 403);
      assertRefused(get(path, "Groovemend-Token: " + token.substring(1)), 403);
      assertRefused(get(path, "Groovemend-Token: " + flipped(token)), 403);
      assertRefused(get(path, token(), token()), 403);
      assertRefused(get(path, "Cookie: token=" + token), 403);
      assertRefused(get(path + "?token=" + token), 403);
    }
    assertRefused(post("/api/decide", "{\"edit\":1,\"verdict\":\"undo\"}"), 403);
    assertRefused(post("/api/end", "{}"), 403);
    assertThat(Files.exists(review.file)).isFalse();
  }

  private static String flipped(String token) {
    char last = token.charAt(token.length() - 1);
    return token.substring(0, token.length() - 1) + (last == 'A' ? 'Q' : 'A');
  }

  @Test
  void theTokenHas256RandomBits() throws Exception {
    byte[] bytes = java.util.Base64.getUrlDecoder().decode(review.token());
    assertThat(bytes).hasSize(32);
    try (OpenReview other =
        new OpenReview(Files.createDirectory(folder.resolve("other")), 44_100, 2)) {
      assertThat(other.token()).isNotEqualTo(review.token());
    }
  }

  @Test
  void aTicketBuysTheTokenOnceOnly() throws IOException {
    String ticket = URI.create(review.server.ticketAddress()).getFragment().substring(7);
    assertThat(ticket).isNotEqualTo(review.token());
    String body = "{\"ticket\":\"" + ticket + "\"}";
    assertRefused(post("/api/enter", "{\"ticket\":\"" + flipped(ticket) + "\"}"), 403);
    assertThat(post("/api/enter", body)).contains(review.token());
    assertRefused(post("/api/enter", body), 403);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/../pom.xml",
        "/..%2f..%2fetc/passwd",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/page/../../door/Door.class",
        "//etc/passwd",
        "/./main.js",
        "/main.js/",
        "/main.js%00.png",
        "/\\..\\windows",
        "/index.html",
        "/page.css;x",
        "/API/side",
        "/api/../api/side",
        "/file:///etc/passwd"
      })
  void onlyTheFilesOfTheListAreThere(String path) throws IOException {
    String answer = get(path, token());
    assertThat(status(answer)).as(path).isIn(400, 404);
    assertThat(answer).doesNotContain("root:").doesNotContain("<project");
  }

  @ParameterizedTest
  @ValueSource(strings = {"PUT", "DELETE", "HEAD", "TRACE", "PATCH", "CONNECT", "BREW", "post"})
  void otherMethodsAreRefused(String method) throws IOException {
    String answer =
        raw(
            method
                + " /api/marks HTTP/1.1\r\nHost: "
                + host()
                + "\r\nConnection: close\r\n"
                + token()
                + "\r\n\r\n");
    assertThat(status(answer)).as(answer).isIn(400, 405);
    assertRefused(get("/api/decide", token()), 405);
    assertRefused(post("/api/marks", "{}", token()), 405);
  }

  @Test
  void longRequestsAreRefused() throws IOException {
    assertRefused(post("/api/decide", " ".repeat(65_537), token()), 413);
    assertRefused(
        raw(
            "POST /api/decide HTTP/1.1\r\nHost: "
                + host()
                + "\r\n"
                + token()
                + "\r\nContent-Type: application/json\r\nContent-Length: 99999999999999\r\n"
                + "Connection: close\r\n\r\n{}"),
        411);
    assertRefused(get("/api/wave?level=1&tile=" + "1".repeat(400), token()), 414);
    String longLine = get("/" + "a".repeat(200_000));
    assertThat(status(longLine)).isNotEqualTo(200);
    String[] many = new String[100];
    for (int i = 0; i < many.length; i++) {
      many[i] = "X-" + i + ": y";
    }
    assertThat(status(get("/", many))).isNotEqualTo(200);
    assertThat(status(get("/", "X: " + "y".repeat(40_000)))).isNotEqualTo(200);
    assertThat(status(get("/"))).isEqualTo(200);
  }

  @Test
  void requestsOfUntoldLengthAreRefused() throws IOException {
    String head =
        "POST /api/back HTTP/1.1\r\nHost: "
            + host()
            + "\r\n"
            + token()
            + "\r\nContent-Type: application/json\r\nConnection: close\r\n";
    assertRefused(raw(head + "Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n"), 411);
    assertRefused(raw(head + "\r\n"), 411);
    assertRefused(
        raw(
            "GET /api/side HTTP/1.1\r\nHost: "
                + host()
                + "\r\n"
                + token()
                + "\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}"),
        400);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "{",
        "[]",
        "null",
        "\"undo\"",
        "{\"edit\":1}{}",
        "{\"edit\":1,\"edit\":2,\"verdict\":\"undo\"}",
        "{\"edit\":\"1\",\"verdict\":\"undo\"}",
        "{\"edit\":1.5,\"verdict\":\"undo\"}",
        "{\"edit\":0,\"verdict\":\"undo\"}",
        "{\"edit\":21,\"verdict\":\"undo\"}",
        "{\"edit\":99999999999999999999,\"verdict\":\"undo\"}",
        "{\"edit\":1,\"verdict\":\"UNDO\"}",
        "{\"edit\":1,\"verdict\":\"undo\",\"more\":1}",
        "{\"verdict\":\"undo\"}"
      })
  void whatIsNoDecisionIsRefused(String body) throws IOException {
    assertRefused(post("/api/decide", body, token()), 400);
    assertThat(Files.exists(review.file)).isFalse();
  }

  @Test
  void deepNestingAndPlainTextAreRefused() throws IOException {
    assertRefused(post("/api/decide", "[".repeat(60_000), token()), 400);
    String form =
        raw(
            "POST /api/back HTTP/1.1\r\nHost: "
                + host()
                + "\r\n"
                + token()
                + "\r\nContent-Type: text/plain\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}");
    assertRefused(form, 415);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "GARBAGE\r\n\r\n",
        "\r\n\r\n",
        "GET\r\n\r\n",
        "GET / HTTP/9.9\r\n\r\n",
        "GET http://evil.example/ HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n",
        "\u0000\u0001\u0002\u0003",
        "GET / HTTP/1.1\r\nHost"
      })
  void whatIsNoRequestGetsNoPage(String sent) throws IOException {
    assertThat(status(raw(sent))).isNotEqualTo(200);
    assertThat(status(get("/"))).isEqualTo(200);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/api/wave?level=-1&tile=0",
        "/api/wave?level=0&tile=-1",
        "/api/wave?level=0&tile=99999999999999999",
        "/api/wave?level=99999999999&tile=0",
        "/api/wave?level=0",
        "/api/wave?level=x&tile=0",
        "/api/wave?level=0&tile=0&tile=1",
        "/api/wave?level=0&tile=%30",
        "/api/spectrogram?side=between&level=3&tile=0",
        "/api/spectrogram?side=after&level=40&tile=0",
        "/api/spectrogram?side=after&level=3&tile=9999999",
        "/api/clip?from=0&to=999999999&what=after&level=same",
        "/api/clip?from=5&to=5&what=after&level=same",
        "/api/clip?from=-5&to=5&what=after&level=same",
        "/api/clip?from=0&to=5000&what=all&level=same",
        "/api/comment"
      })
  void placesThatAreNoneAreRefused(String path) throws IOException {
    assertRefused(get(path, token()), 400);
  }

  @Test
  void slowAndSilentCallersDoNotLockOthersOut() throws IOException {
    List<Socket> idle = new ArrayList<>();
    try {
      for (int i = 0; i < 40; i++) {
        idle.add(new Socket(InetAddress.getByName("127.0.0.1"), review.port()));
      }
      assertThat(status(get("/"))).isEqualTo(200);
    } finally {
      for (Socket socket : idle) {
        socket.close();
      }
    }
  }
}
