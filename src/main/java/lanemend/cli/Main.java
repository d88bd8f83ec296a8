package lanemend.cli;

/** Entry point. */
public final class Main {
  private Main() {}

  /** Runs. */
  public static void main(String[] args) {
    System.out.println("hello " + args.length);
  }
}
