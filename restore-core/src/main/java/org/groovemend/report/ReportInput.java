package org.groovemend.report;

import java.util.List;

/**
 * Everything the page says, already measured and put into words.
 *
 * @param heading whose side, by what, when
 * @param files original, restored, removed, ledger
 * @param side facts of the original file
 * @param found findings of the inspection
 * @param stages in the order in which they were applied, those left out included
 * @param pictures before and after
 * @param comparison what became of the noise and of the music
 * @param edits where the edits lie
 * @param cautions doubts a person should weigh, worst first; none gives a sentence that says so
 * @param commands how to verify and to take back
 * @param listening clips to listen to
 */
public record ReportInput(
    Heading heading,
    List<FileEntry> files,
    List<Fact> side,
    List<Fact> found,
    List<StageAccount> stages,
    List<Figure> pictures,
    Comparison comparison,
    EditAccount edits,
    List<String> cautions,
    List<Command> commands,
    Listening listening) {

  public ReportInput {
    files = List.copyOf(files);
    side = List.copyOf(side);
    found = List.copyOf(found);
    stages = List.copyOf(stages);
    pictures = List.copyOf(pictures);
    cautions = List.copyOf(cautions);
    commands = List.copyOf(commands);
  }

  /**
   * What stands at the top of the page.
   *
   * @param side name of the side, usually the original's file name
   * @param program name and version
   * @param preparedAt date and time with zone, as it is to be printed
   * @param summary one or two sentences: the whole outcome
   */
  public record Heading(String side, String program, String preparedAt, String summary) {}

  /**
   * The logged edits: how many, where they lie, and which to listen to first.
   *
   * @param total number of logged edits
   * @param sampleRateHz to turn frames into times
   * @param channels to name channels
   * @param pictures edits over time
   * @param doubtful the most doubtful edits, most doubtful first
   * @param rule how they were chosen, in words
   */
  public record EditAccount(
      long total,
      int sampleRateHz,
      int channels,
      List<Figure> pictures,
      List<EditLine> doubtful,
      String rule) {
    public EditAccount {
      pictures = List.copyOf(pictures);
      doubtful = List.copyOf(doubtful);
    }
  }
}
