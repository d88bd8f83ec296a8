package lanemend.exchange;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;

/** Damages files the way the world does, the same for the same seed. */
final class Mutator {
  private static final List<String> NASTY =
      List.of(
          "",
          " ",
          "NaN",
          "Infinity",
          "-1",
          "1e400",
          "-0",
          "999999999999999999999999",
          "=1+1",
          "null",
          "true",
          "{}",
          "[]",
          "[[[]]]",
          "\"",
          "\"\"",
          ",",
          ",,,,,,",
          ";",
          "'",
          "\u0000",
          "\u202e",
          "\uFEFF",
          "\uD83D\uDEA7",
          "é",
          "\r",
          "\n",
          "\r\n",
          "\t",
          "2026-02-30",
          "0000-00-00",
          "R10",
          "L",
          "back",
          "5.1",
          "8.2 back",
          "LINESTRING",
          "\\",
          "\\u0000",
          "POINT (1 2)",
          "1,5",
          "1_000",
          "0x10",
          "٣",
          "SR  12",
          "US 9",
          "-93.05",
          "44");

  private final Random random;

  Mutator(long seed) {
    random = new Random(seed);
  }

  /** One to three damages. */
  byte[] damage(byte[] good) {
    byte[] bytes = good;
    int times = 1 + random.nextInt(3);
    for (int i = 0; i < times; i++) {
      bytes = once(bytes);
    }
    return bytes;
  }

  private byte[] once(byte[] bytes) {
    return switch (random.nextInt(10)) {
      case 0 -> flipped(bytes);
      case 1 -> Arrays.copyOf(bytes, random.nextInt(bytes.length + 1));
      case 2 -> inserted(bytes, NASTY.get(random.nextInt(NASTY.size())));
      case 3 -> cut(bytes);
      case 4 -> lines(bytes);
      case 5 -> swappedFields(bytes);
      case 6, 7 -> replacedToken(bytes);
      case 8 -> inserted(bytes, noise());
      default -> retyped(bytes);
    };
  }

  private byte[] flipped(byte[] bytes) {
    byte[] out = bytes.clone();
    for (int i = 0; i < 1 + random.nextInt(4) && out.length > 0; i++) {
      out[random.nextInt(out.length)] ^= (byte) (1 << random.nextInt(8));
    }
    return out;
  }

  private byte[] inserted(byte[] bytes, String text) {
    return inserted(bytes, text.getBytes(StandardCharsets.UTF_8));
  }

  private byte[] inserted(byte[] bytes, byte[] more) {
    int at = random.nextInt(bytes.length + 1);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(bytes, 0, at);
    out.writeBytes(more);
    out.write(bytes, at, bytes.length - at);
    return out.toByteArray();
  }

  private byte[] noise() {
    byte[] noise = new byte[1 + random.nextInt(20)];
    random.nextBytes(noise);
    return noise;
  }

  private byte[] cut(byte[] bytes) {
    int from = random.nextInt(bytes.length + 1);
    int to = Math.min(bytes.length, from + random.nextInt(40));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(bytes, 0, from);
    out.write(bytes, to, bytes.length - to);
    return out.toByteArray();
  }

  /** Lines doubled, dropped or shuffled. */
  private byte[] lines(byte[] bytes) {
    List<String> lines = new ArrayList<>(List.of(text(bytes).split("\n", -1)));
    int at = random.nextInt(lines.size());
    switch (random.nextInt(3)) {
      case 0 -> lines.add(at, lines.get(at));
      case 1 -> lines.remove(at);
      default -> Collections.swap(lines, at, random.nextInt(lines.size()));
    }
    return bytes(String.join("\n", lines));
  }

  /** Two cells, or two JSON values, of one line change places. */
  private byte[] swappedFields(byte[] bytes) {
    List<String> lines = new ArrayList<>(List.of(text(bytes).split("\n", -1)));
    int at = random.nextInt(lines.size());
    List<String> cells = new ArrayList<>(List.of(lines.get(at).split(",", -1)));
    Collections.swap(cells, random.nextInt(cells.size()), random.nextInt(cells.size()));
    lines.set(at, String.join(",", cells));
    return bytes(String.join("\n", lines));
  }

  /** A word or number becomes something nasty. */
  private byte[] replacedToken(byte[] bytes) {
    String text = text(bytes);
    if (text.isEmpty()) {
      return bytes;
    }
    int from = random.nextInt(text.length());
    int to = from;
    while (to < text.length() && "\",:[]{}\n".indexOf(text.charAt(to)) < 0) {
      to++;
    }
    String nasty = NASTY.get(random.nextInt(NASTY.size()));
    return bytes(text.substring(0, from) + nasty + text.substring(to));
  }

  /** Numbers become texts and texts become numbers, objects or arrays. */
  private byte[] retyped(byte[] bytes) {
    String text = text(bytes);
    String[] wanted = {": \"7\"", ": 7", ": [7]", ": {\"a\": 7}", ": null", ": true"};
    int colon = text.indexOf(": ", random.nextInt(text.length() + 1));
    if (colon < 0) {
      return inserted(bytes, "7");
    }
    int end = colon + 2;
    while (end < text.length() && ",}\n".indexOf(text.charAt(end)) < 0) {
      end++;
    }
    return bytes(
        text.substring(0, colon) + wanted[random.nextInt(wanted.length)] + text.substring(end));
  }

  private static String text(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  private static byte[] bytes(String text) {
    // Latin-1 keeps every byte of the file as it was; what is beyond it becomes UTF-8 bytes.
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    text.codePoints()
        .forEach(
            c -> {
              if (c < 256) {
                out.write(c);
              } else {
                out.writeBytes(Character.toString(c).getBytes(StandardCharsets.UTF_8));
              }
            });
    return out.toByteArray();
  }
}
