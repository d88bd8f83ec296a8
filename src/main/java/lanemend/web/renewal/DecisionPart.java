package lanemend.web.renewal;

import java.util.Optional;
import lanemend.renewal.EngineerDecision;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** Room for the engineer's decision, and the decision already kept, if any. */
final class DecisionPart {
  private final Xhtml page;
  private final FlaggedSection section;
  private final Mileposts mileposts;

  DecisionPart(Xhtml page, FlaggedSection section, EvidenceContext context) {
    this.page = page;
    this.section = section;
    this.mileposts = Mileposts.of(context.network(), section.cluster().routeId());
  }

  void write(Optional<EngineerDecision> kept) {
    page.open("div", "class", "box decision").leaf("h2", "Engineer's decision");
    kept.ifPresent(d -> page.leaf("p", "On file: " + sentence(d, mileposts), "class", "kept"));
    page.open("table", "class", "choices").open("tr");
    choice("Accept", "overlay between these limits");
    choice("Change limits", "milepost\u00a0_____ to\u00a0_____");
    choice("Defer", "not before\u00a0______");
    choice("Reject", "keep patching");
    page.close().close();
    page.leaf("p", "Reason (needed unless accepted as it stands)", "class", "name");
    page.leaf("div", "\u00a0", "class", "line").leaf("div", "\u00a0", "class", "line");
    page.open("table", "class", "sign").open("tr");
    for (String line : new String[] {"Name", "License", "Signature", "Date"}) {
      page.open("td").leaf("div", "\u00a0", "class", "line").leaf("div", line, "class", "name");
      page.close();
    }
    page.close().close();
    page.leaf(
        "p",
        "Have the decision entered for section "
            + section.id()
            + ": it is kept with its reason, name and date, and printed here next time.",
        "class",
        "fine");
    page.close();
  }

  private void choice(String name, String text) {
    page.open("td").leaf("span", "\u00a0", "class", "tick").text("\u00a0");
    page.leaf("b", name).empty("br").leaf("span", text, "class", "fine").close();
  }

  /** A kept decision in one sentence. */
  static String sentence(EngineerDecision d, Mileposts mileposts) {
    String limits = "milepost " + mileposts.range(d.fromAlongM(), d.toAlongM());
    String what =
        switch (d.kind()) {
          case ADDED ->
              "put on the list, milepost " + mileposts.range(d.fromAlongM(), d.toAlongM());
          case ACCEPTED -> "accepted, " + limits;
          case LIMITS_CHANGED -> "limits changed to " + limits;
          case DEFERRED -> "deferred, not before " + d.notBefore() + ", " + limits;
          case REJECTED -> "rejected";
        };
    return Wording.sentence(
        what
            + " by "
            + d.by()
            + " on "
            + d.on()
            + (d.reason().isBlank() ? "" : ". Reason: " + d.reason().strip()));
  }
}
