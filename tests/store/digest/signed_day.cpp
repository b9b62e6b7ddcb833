#include "store/digest/signed_day.h"

#include "crypto/sign.h"
#include "store/book.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>

namespace gk::test {

void addSigned(const base::Path& path) {
  base::SeededRandom random(8); // of the keys
  const base::LocalInstant at{{base::Milliseconds(1'795'000'000'000)}, std::chrono::minutes(-300)};
  const auto opened = [&](std::uint8_t number) {
    base::Uuid laptop;
    laptop.bytes[14] = 8;
    laptop.bytes[15] = number;
    auto book = store::Book::open(path, base::LaptopId(laptop), store::Access::readWrite,
                                  store::Durability::bulk, at.at, store::Checkup::skip);
    REQUIRE(book);
    return std::move(*book);
  };
  std::vector<crypto::SigningKey> keys;
  std::vector<roster::PersonalKeyId> ids;
  std::vector<base::MemberId> members;
  for (const auto number : std::array<std::uint8_t, 2>{1, 2}) {
    auto book = opened(number);
    members.push_back(book.current<roster::Member>(store::everything()).value().at(number - 1U).id);
    keys.push_back(crypto::SigningKey::random(random));
    REQUIRE(book.act({}, at, [&](store::Act& act) {
      ids.push_back(act.add(roster::PersonalKey{.member = members.back(),
                                                .publicKey = keys.back().publicKey(),
                                                .salt = roster::Bytes(16, number),
                                                .passes = 3,
                                                .memoryBytes = 65536,
                                                .nonce = roster::Bytes(24, number),
                                                .box = roster::Bytes(48, number)}));
      act.add(roster::RecoveryCode{.withdrawn = number == 1});
      act.keepRecovery(store::KeyRow{roster::Bytes(16, number), 3, 65536, roster::Bytes(24, number),
                                     roster::Bytes(48, number)});
      // Of the two keys of the names that every_table.cpp has.
      store::KeyRow wrapped{roster::Bytes(16, number), 3, 65536, roster::Bytes(24, number),
                            roster::Bytes(48, number), {}};
      act.openers().add({store::Opener::ownPassphrase,
                         {{}, 0, 0, wrapped.nonce, wrapped.box, {}},
                         base::EntryId(ids.back().uuid())});
      wrapped.name.bytes.fill(0x77);
      wrapped.name.bytes.back() = static_cast<std::uint8_t>(0x70 + number);
      act.openers().add({store::Opener::passphrase, wrapped, {}});
      act.openers().add({store::Opener::recoveryCode, wrapped, {}});
    }));
    REQUIRE(book.finish());
  }
  auto book = opened(1);
  const auto days = book.current<roster::ClinicDay>(store::everything()).value();
  for (const auto& row : days) {
    const auto chains = book.chains().value();
    const roster::DayClosure closure{row.id, members[0], members[1]};
    const auto closed = book.act({}, at, [&](store::Act& act) {
      const auto id = act.add(closure);
      for (const std::size_t one : {0U, 1U}) {
        roster::DaySignature signature{.day = row.id,
                                       .closure = id,
                                       .signer = members[one],
                                       .capacity = one == 0 ? roster::Capacity::clinical
                                                            : roster::Capacity::completeness,
                                       .key = ids[one],
                                       .counts = {.consented = 2, .screened = 2},
                                       .schema = chains.schema,
                                       .heads = chains.heads};
        // In another order, so that no two rows of the list say the same of two signatures.
        if (one == 1) std::ranges::reverse(signature.heads);
        signature.signature = keys[one].sign(
            roster::signedBytes(chains.book, closure, signature, at,
                                [&](const auto& given) { return book.enteredAs(given); }));
        act.add(signature);
      }
    });
    if (!closed) FAIL(closed.error().detail);
  }
  REQUIRE(book.act({}, at, [&](store::Act& act) { act.add(roster::School{"After it", "AFTER"}); }));
  REQUIRE(book.finish());
}

} // namespace gk::test
