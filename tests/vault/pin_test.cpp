#include "base/random.h"
#include "vault/vault.h"

#include <catch2/catch.hpp>

using namespace gk;
using base::ErrorCode;
using crypto::Secret;
using vault::SealedPin;
using vault::Vault;

namespace {

struct PinVault {
  base::SeededRandom random{3};
  Vault vault = std::move(
      Vault::create(Secret::copyOf("fern slate thistle"), crypto::KdfCost::cheapest(), random)
          ->vault);
  base::Uuid odile{};
  base::Uuid bram{};

  PinVault() {
    odile.bytes[0] = 1;
    bram.bytes[0] = 2;
  }
  SealedPin seal(const char* pin) {
    auto sealed = vault.sealPin(odile, Secret::copyOf(pin), crypto::KdfCost::cheapest(), random);
    REQUIRE(sealed.has_value());
    return *sealed;
  }
};

} // namespace

TEST_CASE("a PIN opens for its member and no other digits do", "[case-230]") {
  PinVault book;
  const auto sealed = book.seal("2580");
  CHECK(book.vault.isPin(book.odile, Secret::copyOf("2580"), sealed).value());
  for (const char* other : {"2581", "258", "25800", "", "0852"})
    CHECK_FALSE(book.vault.isPin(book.odile, Secret::copyOf(other), sealed).value());
}

TEST_CASE("a PIN moved to another member, changed, or of another logbook is said to be damaged",
          "[case-230]") {
  PinVault book;
  const auto sealed = book.seal("2580");
  const auto codeOf = [&](const Vault& vault, const base::Uuid& member, const SealedPin& pin) {
    const auto looked = vault.isPin(member, Secret::copyOf("2580"), pin);
    REQUIRE_FALSE(looked.has_value());
    return looked.error().code;
  };
  CHECK(codeOf(book.vault, book.bram, sealed) == ErrorCode::vaultDamaged);
  auto changed = sealed;
  changed.box.front() ^= 1U;
  CHECK(codeOf(book.vault, book.odile, changed) == ErrorCode::vaultDamaged);
  base::SeededRandom others(99);
  const auto other =
      Vault::create(Secret::copyOf("fern slate thistle"), crypto::KdfCost::cheapest(), others);
  CHECK(codeOf(other->vault, book.odile, sealed) == ErrorCode::vaultDamaged);
  // A forged cost is refused before anything is computed.
  auto dear = sealed;
  dear.memoryBytes = std::int64_t{1} << 30;
  CHECK(codeOf(book.vault, book.odile, dear) == ErrorCode::vaultDamaged);
  dear = sealed;
  dear.opsLimit = SealedPin::mostOps + 1;
  CHECK(codeOf(book.vault, book.odile, dear) == ErrorCode::vaultDamaged);
}

TEST_CASE("a vault that slept opens what it did before", "[case-233]") {
  PinVault book;
  const auto sealed = book.seal("2580");
  book.vault.sleep();
  auto moved = std::move(book.vault); // with its key unreadable
  moved.awaken();
  CHECK(moved.isPin(book.odile, Secret::copyOf("2580"), sealed).value());
}
