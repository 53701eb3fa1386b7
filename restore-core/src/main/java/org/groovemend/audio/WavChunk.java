package org.groovemend.audio;

/**
 * A RIFF chunk to be carried over into a copy.
 *
 * @param id four characters; "data" marks the place of the samples
 * @param fileOffset where the chunk's content begins in the original, -1 when {@code content} is
 *     given
 * @param size bytes of content, without padding; 0 for the samples marker
 * @param content the bytes themselves, or null when they are to be copied from the original at
 *     {@code fileOffset}
 */
public record WavChunk(String id, long fileOffset, long size, byte[] content) {

  public static WavChunk samples() {
    return new WavChunk("data", -1, 0, null);
  }

  public static WavChunk of(String id, byte[] content) {
    return new WavChunk(id, -1, content.length, content);
  }

  public boolean isSamples() {
    return "data".equals(id);
  }
}
