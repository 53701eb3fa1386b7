package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.groovemend.ledger.LedgerDamagedException.Damage;
import org.junit.jupiter.api.Test;

/** The same with a ledger of version 2 that names its parent. */
class LedgerDamageOfChildTest extends LedgerDamageTest {

  @Override
  byte[] good() {
    return GoldenLedger.bytes("v2/repairs/side.undo-1.ledger.jsonl");
  }

  @Override
  int version() {
    return 2;
  }

  @Test
  void theParentIsTakenApartStrictly() throws IOException {
    damage(edited("header", ",\"undoneInAll\":1}", "}"));
    damage(edited("header", ",\"undoneInAll\":1}", ",\"undoneInAll\":1,\"mood\":1}"));
    damage(edited("header", "\"parent\":{", "\"parents\":{"));
    damage(edited("header", "\"name\":\"side.undo-1.decisions.json\",", ""));
    assertThat(damage(edited("header", "\"ledger\":\"side", "\"ledger\":\"../side")))
        .hasMessageContaining("not a file name without a folder");
    assertThat(
            damage(
                edited(
                    "header", "\"undone\":1,\"undoneInAll\":1", "\"undone\":1,\"undoneInAll\":0")))
        .hasMessageContaining("that cannot be");
  }

  @Test
  void otherCountsThanThoseOfTheParentAreRefused() throws IOException {
    LedgerDamagedException e =
        damage(
            edited("header", "\"undone\":1,\"undoneInAll\":1", "\"undone\":2,\"undoneInAll\":2"));
    assertThat(e).hasMessageContaining("of the 3 of its parent 2 were taken back");
    assertThat(e.damage()).isEqualTo(Damage.SEQUENCE);
  }
}
