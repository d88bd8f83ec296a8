package lanemend.network;

import java.util.Optional;

/**
 * A lane of a route: the side of the centreline and the lane's number counted outward from the
 * centreline, from 1. Written {@code R1}, {@code L2}. Number 0 means the shoulder ({@code R0}).
 */
public record Lane(Side side, int number) {

  public Lane {
    if (number < 0 || number > 9) {
      throw new IllegalArgumentException("lane number " + number + " is not 0 to 9");
    }
  }

  /** Reads {@code R1}; empty when the text is not a lane. */
  public static Optional<Lane> parse(String text) {
    String t = text.strip();
    if (t.length() != 2 || !Character.isDigit(t.charAt(1))) {
      return Optional.empty();
    }
    int number = t.charAt(1) - '0';
    return switch (t.charAt(0)) {
      case 'R', 'r' -> Optional.of(new Lane(Side.RIGHT, number));
      case 'L', 'l' -> Optional.of(new Lane(Side.LEFT, number));
      default -> Optional.empty();
    };
  }

  /** The written form, for instance {@code R1}. */
  public String code() {
    return (side == Side.RIGHT ? "R" : "L") + number;
  }
}
