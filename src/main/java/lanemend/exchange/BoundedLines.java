package lanemend.exchange;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Physical lines of a UTF-8 file, none held longer than {@link #MAX_CHARS}. Ends at LF, CRLF or CR.
 * Bytes that are not UTF-8 become U+FFFD, so that the row they stand in can be refused by its line.
 */
final class BoundedLines implements Closeable {
  /** Longest line taken: about 300,000 vertices of well-known text. */
  static final int MAX_CHARS = 8 << 20;

  /** A line; {@code tooLong} lines keep only their beginning. */
  record Line(long number, String text, boolean tooLong) {}

  private final Reader in;
  private final char[] buffer = new char[1 << 16];
  private final Deque<Line> pushedBack = new ArrayDeque<>();
  private int at;
  private int filled;
  private long number;
  private boolean afterCr;

  BoundedLines(Path file) throws IOException {
    in = utf8(file);
  }

  /** Opens a file as text, without its byte order mark. */
  static Reader utf8(Path file) throws IOException {
    InputStream bytes = new BufferedInputStream(Files.newInputStream(file), 1 << 16);
    try {
      bytes.mark(4);
      byte[] mark = bytes.readNBytes(3);
      boolean bom =
          mark.length == 3
              && mark[0] == (byte) 0xEF
              && mark[1] == (byte) 0xBB
              && mark[2] == (byte) 0xBF;
      if (!bom) {
        bytes.reset();
      }
      if (mark.length >= 2 && (isPair(mark, 0xFE, 0xFF) || isPair(mark, 0xFF, 0xFE))) {
        throw new ExchangeException(
            new RowProblem(RowSource.nameOf(file), 1, "", "UTF-16 text", "text in UTF-8"));
      }
      return new InputStreamReader(bytes, StandardCharsets.UTF_8);
    } catch (IOException | ExchangeException e) {
      bytes.close();
      throw e;
    }
  }

  private static boolean isPair(byte[] mark, int first, int second) {
    return mark[0] == (byte) first && mark[1] == (byte) second;
  }

  /** The next line, or null at the end. */
  Line next() throws IOException {
    return pushedBack.isEmpty() ? fromFile() : pushedBack.pop();
  }

  /** Puts a line back; the last put back comes first. */
  void pushBack(Line line) {
    pushedBack.push(line);
  }

  private Line fromFile() throws IOException {
    StringBuilder text = new StringBuilder();
    boolean any = false;
    boolean tooLong = false;
    while (true) {
      if (at == filled) {
        filled = in.read(buffer);
        at = 0;
        if (filled < 0) {
          filled = 0;
          return any ? new Line(++number, text.toString(), tooLong) : null;
        }
      }
      if (afterCr && at < filled && buffer[at] == '\n') {
        at++;
        afterCr = false;
        continue;
      }
      afterCr = false;
      any = true;
      int end = at;
      while (end < filled && buffer[end] != '\n' && buffer[end] != '\r') {
        end++;
      }
      int room = Math.min(end - at, MAX_CHARS - text.length());
      text.append(buffer, at, room);
      tooLong |= room < end - at;
      at = end;
      if (at < filled) {
        afterCr = buffer[at++] == '\r';
        return new Line(++number, text.toString(), tooLong);
      }
    }
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
