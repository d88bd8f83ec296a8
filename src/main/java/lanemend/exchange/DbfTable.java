package lanemend.exchange;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The attributes of a shapefile: a dBASE III table, record by record, every cell as text. Dates
 * come as {@code 2026-04-30}, logicals as yes and no, what is blank or unknown not at all.
 */
final class DbfTable implements Closeable {
  private static final int FIELD_BYTES = 32;
  private static final int FIELDS_END = 0x0D;
  private static final int MOST_FIELDS = 1_024;

  /** Language driver ids (dBASE header byte 29) that are met with, to the JDK's names. */
  private static final Map<Integer, String> DRIVERS =
      Map.ofEntries(
          Map.entry(0x01, "IBM437"),
          Map.entry(0x02, "IBM850"),
          Map.entry(0x03, "windows-1252"),
          Map.entry(0x57, "windows-1252"),
          Map.entry(0x64, "IBM852"),
          Map.entry(0x65, "IBM866"),
          Map.entry(0xC8, "windows-1250"),
          Map.entry(0xC9, "windows-1251"),
          Map.entry(0xCB, "windows-1253"));

  private record Field(String name, char type, int length) {}

  private final InputStream in;
  private final List<Field> fields = new ArrayList<>();
  private final Charset charset;
  private final byte[] record;
  private final long records;

  /**
   * Opens the table.
   *
   * @param codePage what the {@code .cpg} file beside it says, or empty
   * @throws IOException with a sentence when it is no such table
   */
  DbfTable(Path file, String codePage) throws IOException {
    in = new BufferedInputStream(Files.newInputStream(file));
    try {
      ByteBuffer head = ByteBuffer.wrap(bytes(FIELD_BYTES)).order(ByteOrder.LITTLE_ENDIAN);
      records = Integer.toUnsignedLong(head.getInt(4));
      int headLength = Short.toUnsignedInt(head.getShort(8));
      int recordLength = Short.toUnsignedInt(head.getShort(10));
      charset = charset(codePage, Byte.toUnsignedInt(head.get(29)));
      readFields(headLength);
      int sum = 1 + fields.stream().mapToInt(Field::length).sum();
      if (sum > recordLength) {
        throw new IOException("its fields are longer than its records");
      }
      record = new byte[recordLength];
    } catch (IOException e) {
      in.close();
      throw e;
    }
  }

  private void readFields(int headLength) throws IOException {
    int left = headLength - FIELD_BYTES;
    while (left > 0) {
      int first = in.read();
      left--;
      if (first == FIELDS_END || first < 0) {
        break;
      }
      if (fields.size() == MOST_FIELDS) {
        throw new IOException("it has more than " + MOST_FIELDS + " fields");
      }
      byte[] field = new byte[FIELD_BYTES];
      field[0] = (byte) first;
      System.arraycopy(bytes(FIELD_BYTES - 1), 0, field, 1, FIELD_BYTES - 1);
      left -= FIELD_BYTES - 1;
      int end = 0;
      while (end < 11 && field[end] != 0) {
        end++;
      }
      String name = new String(field, 0, end, charset).strip().toLowerCase(Locale.ROOT);
      fields.add(new Field(name, (char) field[11], Byte.toUnsignedInt(field[16])));
    }
    if (fields.isEmpty()) {
      throw new IOException("it has no fields");
    }
    in.skipNBytes(Math.max(0, left));
  }

  private static Charset charset(String codePage, int driver) {
    String said = codePage.strip().toUpperCase(Locale.ROOT).replaceFirst("^(ANSI|OEM)[ _]?", "");
    String name = said;
    if (said.matches("\\d{3,5}")) {
      name = said.startsWith("8859") ? "ISO-8859-" + said.substring(4) : pageName(said);
    } else if (said.isEmpty()) {
      name = DRIVERS.getOrDefault(driver, "ISO-8859-1");
    }
    try {
      return Charset.forName(name);
    } catch (IllegalArgumentException e) {
      // An encoding nobody knows: letters of English are right in any of them.
      return StandardCharsets.ISO_8859_1;
    }
  }

  private static String pageName(String page) {
    return page.equals("65001")
        ? "UTF-8"
        : page.startsWith("125") ? "windows-" + page : "IBM" + page;
  }

  private byte[] bytes(int count) throws IOException {
    byte[] read = in.readNBytes(count);
    if (read.length < count) {
      throw new EOFException("it ends in the middle");
    }
    return read;
  }

  List<String> columns() {
    return fields.stream().map(Field::name).toList();
  }

  /** Records as the header counts them. */
  long records() {
    return records;
  }

  /**
   * The next record's cells by column; null for one that is marked as deleted.
   *
   * @throws EOFException at the end
   */
  Map<String, String> next() throws IOException {
    int read = in.readNBytes(record, 0, record.length);
    if (read < record.length) {
      throw new EOFException("it ends in the middle");
    }
    Map<String, String> cells = new HashMap<>();
    int at = 1;
    for (Field field : fields) {
      String cell = new String(record, at, field.length(), charset).replace("\0", " ").strip();
      at += field.length();
      cell = understood(field.type(), cell);
      if (!cell.isEmpty()) {
        cells.put(field.name(), cell);
      }
    }
    return record[0] == '*' ? null : cells;
  }

  private static String understood(char type, String cell) {
    return switch (type) {
      case 'D' ->
          cell.matches("\\d{8}")
              ? cell.substring(0, 4) + "-" + cell.substring(4, 6) + "-" + cell.substring(6)
              : cell;
      case 'L' ->
          switch (cell) {
            case "T", "t", "Y", "y" -> "yes";
            case "F", "f", "N", "n" -> "no";
            default -> "";
          };
      default -> cell;
    };
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
