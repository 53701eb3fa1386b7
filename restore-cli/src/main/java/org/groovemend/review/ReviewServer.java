package org.groovemend.review;

import com.sun.net.httpserver.HttpServer;
import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Clock;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.groovemend.review.desk.DecisionDesk;
import org.groovemend.review.door.Door;
import org.groovemend.review.door.Keys;
import org.groovemend.review.door.Refusal;
import org.groovemend.review.door.Reply;
import org.groovemend.review.door.Route;
import org.groovemend.review.side.ReviewSide;
import org.groovemend.review.side.SideScan;

/** The page of a review, on the loopback address of this machine alone. */
public final class ReviewServer implements Closeable {

  private static final int THREADS = 6;
  private static final int WAITING = 256;
  private static final byte[] LOOPBACK = {127, 0, 0, 1};

  private final HttpServer server;
  private final ThreadPoolExecutor executor;
  private final SideScan scan;
  private final Thread scanning;
  private final Keys keys;
  private final String host;
  private final CountDownLatch ended = new CountDownLatch(1);

  private ReviewServer(HttpServer server, SideScan scan, Keys keys, String host) {
    this.server = server;
    this.scan = scan;
    this.keys = keys;
    this.host = host;
    this.executor =
        new ThreadPoolExecutor(
            THREADS,
            THREADS,
            1,
            TimeUnit.MINUTES,
            new ArrayBlockingQueue<>(WAITING),
            work -> daemon(work, "groovemend-review"),
            // whoever finds no room in the queue is not answered
            new ThreadPoolExecutor.AbortPolicy());
    this.scanning = daemon(scan, "groovemend-scan");
  }

  private static Thread daemon(Runnable work, String name) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    return thread;
  }

  /**
   * Starts to answer.
   *
   * @param port 0 for any that is free
   * @param next what the page shows of files and of the command to run afterwards
   * @throws java.net.BindException if the port is taken
   */
  public static ReviewServer start(
      ReviewSide side, DecisionDesk desk, Map<String, Object> next, int port) throws IOException {
    ServerLimits.set();
    HttpServer http =
        HttpServer.create(new InetSocketAddress(InetAddress.getByAddress(LOOPBACK), port), 0);
    String host = "127.0.0.1:" + http.getAddress().getPort();
    Keys keys = new Keys(Clock.systemUTC());
    SideScan scan = new SideScan(side);
    ReviewServer server = new ReviewServer(http, scan, keys, host);
    Map<String, Route> routes = new HashMap<>();
    Page.addTo(routes);
    new SideRoutes(side, scan, next).addTo(routes);
    new DeskRoutes(desk, scan).addTo(routes);
    routes.put("/api/enter", new Route("POST", false, request -> enter(keys, request.body())));
    routes.put("/api/end", new Route("POST", true, request -> server.end()));
    http.createContext("/", new Door(host, keys, routes));
    http.setExecutor(server.executor);
    http.start();
    server.scanning.setPriority(Thread.MIN_PRIORITY);
    server.scanning.start();
    return server;
  }

  private static Reply enter(Keys keys, byte[] content) throws IOException {
    Body body = Body.read(content, "ticket");
    String token = keys.spend(Body.required(body.text("ticket"), "ticket"));
    if (token == null) {
      throw new Refusal(
          403,
          "This address was used already or is too old: open the one that groovemend printed.");
    }
    return Reply.json(Map.of("token", token));
  }

  private Reply end() {
    ended.countDown();
    return Reply.json(Map.of("ended", true));
  }

  /** To be opened by a person; whoever has it may decide. */
  public String address() {
    return "http://" + host + "/#token=" + keys.token();
  }

  /** To start a browser with: good once, for a minute. */
  public String ticketAddress() {
    return "http://" + host + "/#ticket=" + keys.ticket();
  }

  /** Waits until the page says that the review is over, or {@link #close}. */
  public void awaitEnd() throws InterruptedException {
    ended.await();
  }

  /** Answers what is being answered, for a second at most, and nothing more. */
  @Override
  public void close() {
    scan.stop();
    ended.countDown();
    server.stop(1);
    executor.shutdownNow();
    try {
      scanning.join(TimeUnit.SECONDS.toMillis(1));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
