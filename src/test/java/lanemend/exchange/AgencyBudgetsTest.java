package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.renewal.RenewalRules;
import org.junit.jupiter.api.Test;

/** Budgets put into an agency's text, which is then read as any agency file is. */
class AgencyBudgetsTest {
  private static final String AGENCY =
      """
      {"name": "Invented", "plan": {"cost_per_mile": 3.20},
       "renewal": {"yearly_budgets": [400000, 400000], "subgrade_psi": 9000}}
      """;

  private static RenewalRules rules(String text) {
    return RenewalRulesReader.parse("agency.json", text, RenewalRules.standard());
  }

  @Test
  void onlyTheBudgetsAreOthers() {
    String changed = AgencyBudgets.replaced(AGENCY, List.of(125_000.5, 0.0, 1e7));
    assertEquals(List.of(125_000.5, 0.0, 1e7), rules(changed).yearlyBudgets());
    assertEquals(rules(AGENCY).withBudgets(List.of()), rules(changed).withBudgets(List.of()));
    // digits of other numbers stay as they were written
    assertTrue(changed.contains("3.20"), changed);
    assertTrue(changed.contains("Invented"), changed);
  }

  @Test
  void noBudgetsAndNoRenewalAtAllAreAgenciesToo() {
    String none = AgencyBudgets.replaced(AGENCY, List.of());
    assertFalse(none.contains("yearly_budgets"), none);
    assertEquals(List.of(), rules(none).yearlyBudgets());
    assertEquals(
        List.of(5e4),
        rules(AgencyBudgets.replaced("{\"name\": \"x\"}", List.of(5e4))).yearlyBudgets());
  }
}
