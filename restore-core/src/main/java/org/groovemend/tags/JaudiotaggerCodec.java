package org.groovemend.tags;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.UnsupportedEncodingException;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jaudiotagger.audio.flac.metadatablock.MetadataBlockDataPicture;
import org.jaudiotagger.tag.TagException;
import org.jaudiotagger.tag.id3.ID3v24Frame;
import org.jaudiotagger.tag.id3.ID3v24Tag;
import org.jaudiotagger.tag.id3.framebody.AbstractFrameBodyTextInfo;
import org.jaudiotagger.tag.id3.framebody.AbstractID3v2FrameBody;
import org.jaudiotagger.tag.id3.framebody.FrameBodyAPIC;
import org.jaudiotagger.tag.id3.framebody.FrameBodyCOMM;
import org.jaudiotagger.tag.id3.framebody.FrameBodyTPOS;
import org.jaudiotagger.tag.id3.framebody.FrameBodyTRCK;
import org.jaudiotagger.tag.id3.framebody.FrameBodyTXXX;
import org.jaudiotagger.tag.id3.valuepair.TextEncoding;
import org.jaudiotagger.tag.vorbiscomment.VorbisCommentCreator;
import org.jaudiotagger.tag.vorbiscomment.VorbisCommentTag;

/**
 * Tags by jaudiotagger, of which only the coding in memory is used: it would write into a file in
 * place, refuses RF64 and adds empty chunks.
 *
 * <p>Nothing of its process-wide options is set here; those that could play a part (text encoding,
 * unsynchronisation) are at their defaults unless the program that uses this library changes them.
 */
final class JaudiotaggerCodec implements TagCodec {

  private static final String VENDOR = "groovemend";
  private static final byte FRONT_COVER = 3;
  private static final byte UTF_8 = TextEncoding.UTF_8;

  /** ID3 2.4: "XXX" for a language that is not known. */
  private static final String NO_LANGUAGE = "XXX";

  /** Held so that the level stays set: loggers nobody holds are forgotten. */
  private static final Logger SILENCED = Logger.getLogger("org.jaudiotagger");

  static {
    SILENCED.setLevel(Level.OFF);
  }

  @Override
  public byte[] vorbisComment(Tags tags) {
    try {
      VorbisCommentTag comment = VorbisCommentTag.createNewTag();
      comment.setVendor(VENDOR);
      for (Map.Entry<TagField, String> entry : tags.values().entrySet()) {
        comment.addField(comment.createField(entry.getKey().vorbis(), entry.getValue()));
      }
      return bytes(new VorbisCommentCreator().convertMetadata(comment, false));
    } catch (UnsupportedEncodingException e) {
      throw new IllegalArgumentException("these tags cannot be written: " + e.getMessage(), e);
    }
  }

  @Override
  public byte[] picture(Cover cover) {
    PictureShape shape = cover.shape();
    return bytes(
        new MetadataBlockDataPicture(
                cover.bytes(),
                FRONT_COVER,
                cover.mimeType(),
                "",
                shape.width(),
                shape.height(),
                shape.bitsPerPixel(),
                shape.indexedColours())
            .getBytes());
  }

  private static byte[] bytes(ByteBuffer buffer) {
    byte[] bytes = new byte[buffer.remaining()];
    buffer.get(bytes);
    return bytes;
  }

  @Override
  public byte[] id3(Tags tags, Cover coverOrNull) {
    try {
      ID3v24Tag id3 = new ID3v24Tag();
      for (Map.Entry<TagField, String> entry : tags.values().entrySet()) {
        add(id3, tags, entry.getKey(), entry.getValue());
      }
      if (coverOrNull != null) {
        id3.addFrame(
            frame(
                "APIC",
                new FrameBodyAPIC(
                    UTF_8, coverOrNull.mimeType(), FRONT_COVER, "", coverOrNull.bytes())));
      }
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      id3.write(out);
      return out.toByteArray();
    } catch (TagException e) {
      throw new IllegalArgumentException("these tags cannot be written: " + e.getMessage(), e);
    } catch (IOException e) {
      throw new UncheckedIOException("memory does not fail", e);
    }
  }

  private static void add(ID3v24Tag id3, Tags tags, TagField field, String text)
      throws TagException {
    switch (field) {
      case TRACKS, DISCS -> {
        // stand behind the number they belong to
      }
      case TRACK -> {
        String numbers = numbered(text, tags.get(TagField.TRACKS));
        id3.addFrame(frame(field.id3(), new FrameBodyTRCK(UTF_8, numbers)));
      }
      case DISC -> {
        String numbers = numbered(text, tags.get(TagField.DISCS));
        id3.addFrame(frame(field.id3(), new FrameBodyTPOS(UTF_8, numbers)));
      }
      case COMMENT ->
          id3.addFrame(frame(field.id3(), new FrameBodyCOMM(UTF_8, NO_LANGUAGE, "", text)));
      // the frame's text must begin with a year and a space
      case RIGHTS ->
          id3.addFrame(text.matches("[0-9]{4} .*") ? text(field.id3(), text) : named(field, text));
      default -> id3.addFrame(field.id3() == null ? named(field, text) : text(field.id3(), text));
    }
  }

  private static String numbered(String number, String ofOrNull) {
    return ofOrNull == null ? number : number + "/" + ofOrNull;
  }

  /** A frame whose body is nothing but one text. */
  private static ID3v24Frame text(String id, String text) {
    ID3v24Frame frame = new ID3v24Frame(id);
    AbstractFrameBodyTextInfo body = (AbstractFrameBodyTextInfo) frame.getBody();
    body.setTextEncoding(UTF_8);
    body.setText(text);
    return frame;
  }

  private static ID3v24Frame named(TagField field, String text) {
    return frame("TXXX", new FrameBodyTXXX(UTF_8, field.vorbis(), text));
  }

  private static ID3v24Frame frame(String id, AbstractID3v2FrameBody body) {
    ID3v24Frame frame = new ID3v24Frame(id);
    frame.setBody(body);
    return frame;
  }
}
