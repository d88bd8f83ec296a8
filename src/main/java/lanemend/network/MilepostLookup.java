package lanemend.network;

import java.util.List;

/** What a milepost came to: one place, several that must be told apart, or none. */
public sealed interface MilepostLookup {

  /** The one place. */
  record Found(double alongM) implements MilepostLookup {}

  /** The number occurs more than once; each place is named by its equation side. */
  record Ambiguous(List<Choice> choices) implements MilepostLookup {
    public Ambiguous {
      choices = List.copyOf(choices);
    }
  }

  /** One of the places of an ambiguous milepost. */
  record Choice(Milepost milepost, double alongM) {}

  /** The number does not occur: it falls in an equation's gap or off the route's ends. */
  record Missing(String why) implements MilepostLookup {}
}
