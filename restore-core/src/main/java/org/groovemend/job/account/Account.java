package org.groovemend.job.account;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.proof.VerifySignatures;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.VerificationException;
import org.groovemend.ledger.Verifier;
import org.groovemend.lineage.Forebears;
import org.groovemend.report.AccountInput;
import org.groovemend.report.AccountPage;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;
import org.groovemend.signing.Fingerprint;
import org.groovemend.signing.LedgerSignature;
import org.groovemend.signing.SignatureFile;

/** Writes the account of a treatment for people who are no engineers: one page. */
public final class Account {

  /**
   * @param ledger file
   * @param files that do not lie beside it; nulls are looked for there
   * @param parents ledgers, or folders of such, that it descends from, where they are not found
   *     without help
   * @param wish whose signatures count
   * @param program name and version
   * @param now for the foot of the page
   */
  public record Request(
      Path ledger,
      LedgerFiles files,
      List<Path> parents,
      VerifySignatures.Wish wish,
      String program,
      Instant now) {
    public Request {
      parents = List.copyOf(parents);
    }
  }

  private final Request request;
  private final Ledger ledger;
  private final List<Check> checks;

  private Account(Request request, Ledger ledger, List<Check> checks) {
    this.request = request;
    this.ledger = ledger;
    this.checks = checks;
  }

  /**
   * Checks everything, then writes the page, whole or not at all.
   *
   * @return seal of the ledger
   * @throws VerificationException if something does not hold: there is no honest account of it
   */
  public static String run(Request request, Path out, boolean replace, Progress progress)
      throws IOException, VerificationException {
    Path whole = out.toAbsolutePath();
    String name = FilePath.name(whole);
    Ledger ledger = ledger(request);
    // says before the work that the page cannot be written
    try (OutputSet outputs =
        OutputSet.open(FilePath.folder(whole), List.of(name), replace, inputs(request, ledger))) {
      List<Check> checks = check(request);
      byte[] page = page(request, ledger, checks, progress);
      try (OutputStream stream = outputs.create(name)) {
        stream.write(page);
      }
      outputs.commit();
      return ledger.seal();
    }
  }

  /** The ledger, or null if it is damaged: {@link #check} tells what is wrong with it. */
  public static Ledger ledger(Request request) throws IOException {
    try {
      return Ledger.open(request.ledger());
    } catch (LedgerDamagedException | LedgerVersionException e) {
      return null;
    }
  }

  /**
   * All that belongs to a ledger and must not be written over, wherever it was found.
   *
   * @param ledger null if it is damaged
   */
  public static List<Path> inputs(Request request, Ledger ledger) throws IOException {
    List<Path> all = new ArrayList<>(request.parents());
    all.add(request.ledger());
    all.add(SignatureFile.beside(request.ledger()));
    all.add(
        request
            .ledger()
            .resolveSibling(DecisionDocument.nameBeside(FilePath.name(request.ledger()))));
    LedgerFiles files = request.files();
    if (ledger != null) {
      files = files.or(LedgerFiles.beside(ledger));
      if (ledger.header().parent() != null) {
        Forebears forebears = new Forebears(request.parents());
        all.add(forebears.decisions(ledger));
        forebears.of(ledger).forEach(forebear -> all.add(forebear.path()));
      }
    }
    all.add(files.original());
    all.add(files.restored());
    all.add(files.removed());
    return all.stream().filter(path -> path != null && Files.exists(path)).toList();
  }

  /** Every check of ledger, files and signatures, none of which fails. */
  public static List<Check> check(Request request) throws IOException, VerificationException {
    List<Check> checks =
        new ArrayList<>(Verify.run(request.ledger(), request.files(), request.parents()));
    String seal = Verify.failed(checks) ? null : Ledger.open(request.ledger()).seal();
    checks.addAll(VerifySignatures.run(request.ledger(), seal, request.wish()));
    List<Mismatch> failed =
        checks.stream()
            .filter(check -> check.outcome() == Check.Outcome.FAILS)
            .map(check -> new Mismatch(check.words(), check.expected(), check.found()))
            .toList();
    if (!failed.isEmpty()) {
      throw new VerificationException(
          request.ledger() + " does not hold; 'groovemend verify' tells all of it.", failed);
    }
    return checks;
  }

  /**
   * The page.
   *
   * @param checks of which none failed
   */
  public static byte[] page(Request request, Ledger ledger, List<Check> checks, Progress progress)
      throws IOException {
    StringBuilder page = new StringBuilder();
    AccountPage.write(new Account(request, ledger, checks).input(progress), page);
    return page.toString().getBytes(StandardCharsets.UTF_8);
  }

  private AccountInput input(Progress progress) throws IOException {
    AccountSurvey survey = AccountSurvey.of(ledger);
    AccountWords words = new AccountWords(ledger, survey);
    AccountSurvey.Compared compared = compare(progress);
    List<AccountInput.Part> parts = new ArrayList<>();
    List<String> done = new ArrayList<>(words.done());
    done.addAll(AccountDescent.proved(checks));
    parts.add(new AccountInput.Part("What was done", done));
    parts.add(new AccountInput.Part("How much", words.amount(compared)));
    parts.add(
        new AccountInput.Part(
            "What was left alone", words.leftAlone(holds(Verifier.OUTSIDE_EDITS))));
    List<String> doubts = new ArrayList<>(words.doubts());
    doubts.addAll(AccountDescent.doubts(checks));
    parts.add(new AccountInput.Part("Doubts", doubts));
    parts.add(new AccountInput.Part("Can it be undone?", undone()));
    parts.add(new AccountInput.Part("Who vouches for it", signed()));
    String name = FilePath.name(request.ledger());
    return new AccountInput(
        ledger.header().original().name(),
        words.about(),
        words.inShort(holds(Verifier.ORIGINAL_FILE)),
        pictures(survey, words, compared),
        parts,
        Fingerprint.of(ledger.seal()).text(),
        "It stands for the ledger and, through it, for every file. Later, groovemend verify "
            + name
            + " --fingerprint ... tells whether anything was altered since.",
        "Made from "
            + name
            + " by "
            + request.program()
            + ", "
            + request.now().toString().substring(0, 10)
            + ". Listen with care: what was taken away holds loud pops.");
  }

  private boolean holds(String check) {
    return checks.stream()
        .anyMatch(c -> c.name().equals(check) && c.outcome() == Check.Outcome.HOLDS);
  }

  private AccountSurvey.Compared compare(Progress progress) throws IOException {
    LedgerFiles files = request.files().or(LedgerFiles.beside(ledger));
    try (LedgerSides sides = LedgerSides.open(ledger, files)) {
      return sides.both()
          ? AccountSurvey.compare(sides.original(), sides.restored(), progress)
          : null;
    }
  }

  private static List<Figure> pictures(
      AccountSurvey survey, AccountWords words, AccountSurvey.Compared compared) {
    List<Figure> pictures = new ArrayList<>();
    if (compared != null) {
      pictures.add(
          new Figure(
              "The side over time",
              "Outline of the sound over the whole side, before above after, and bars where repairs lie.",
              "From left to right: the side from beginning to end. The taller, the louder. Thin spikes above that are"
                  + " missing below are ticks and pops; the shape of the music should be the same.",
              Pictures.accountOfSide(compared.before(), compared.after(), survey.density())));
    }
    double noise = words.noiseShare();
    if (!Double.isNaN(noise)) {
      pictures.add(
          new Figure(
              "Noise before and after",
              "Two bars: how loud the noise sounds before, 100, and after, "
                  + Math.round(100 * noise)
                  + ".",
              "How loud the noise sounds where no music plays, before = 100; a rule of thumb for hearing, not a measurement of taste.",
              Pictures.accountOfNoise(noise)));
    }
    return pictures;
  }

  private List<String> undone() {
    List<String> all = new ArrayList<>();
    String from =
        ledger.totals().removed() == null
            ? "From the clean copy and the ledger"
            : "From the clean copy, the file of what was taken away and the ledger";
    all.add(
        holds(Verifier.REVERSAL)
            ? "Yes. "
                + from
                + " the original file comes back, byte for byte, without the original at hand. This was tried when this page"
                + " was made, and it did."
            : "It could not be tried when this page was made, for the files were not all there. "
                + from
                + " the original file ought to come back, byte for byte.");
    all.add("Single repairs can be taken back as well, by number, place, kind or doubt.");
    all.add("Keep these files together: " + String.join(", ", names()) + ".");
    return all;
  }

  private List<String> names() {
    List<String> names = new ArrayList<>();
    names.add(ledger.totals().restored().name());
    if (ledger.totals().removed() != null) {
      names.add(ledger.totals().removed().name());
    }
    names.add(FilePath.name(request.ledger()));
    return names;
  }

  private List<String> signed() throws IOException {
    Path file = SignatureFile.beside(request.ledger().toAbsolutePath());
    List<String> all = new ArrayList<>();
    SignatureFile signatures =
        Files.exists(file) ? SignatureFile.read(file) : SignatureFile.empty();
    for (LedgerSignature one : signatures.signatures()) {
      all.add(
          (one.name().isEmpty() ? "Somebody" : one.name())
              + " signed as "
              + one.role().key()
              + " on "
              + one.atUtc().substring(0, 10)
              + ". The digital signature fits this ledger; "
              + (request.wish().trusted().contains(one.key())
                  ? "the key is one that was named as trusted."
                  : "whose key it is was not checked: compare its fingerprint, "
                      + one.key().fingerprint()
                      + ", with its owner."));
    }
    if (all.isEmpty()) {
      all.add("Nobody has signed the ledger digitally. The lines below are for pen and paper.");
    }
    return all;
  }
}
