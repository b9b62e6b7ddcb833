#include "roster/keys/keys.h"

#include "roster/keys/erasure.h"

namespace gk::roster {

namespace {

constexpr std::string_view signatureTag = "groovekeeper day signature 1";

class SignedWriter {
 public:
  void number(std::int64_t value) {
    for (unsigned i = 0; i < 8; ++i)
      bytes_.push_back(static_cast<std::uint8_t>(static_cast<std::uint64_t>(value) >> (8 * i)));
  }
  void text(std::string_view text) {
    number(static_cast<std::int64_t>(text.size()));
    bytes_.insert(bytes_.end(), text.begin(), text.end());
  }
  void id(const base::Uuid& uuid) {
    bytes_.insert(bytes_.end(), uuid.bytes.begin(), uuid.bytes.end());
  }
  void bytes(const Bytes& value) {
    number(static_cast<std::int64_t>(value.size()));
    bytes_.insert(bytes_.end(), value.begin(), value.end());
  }
  Bytes finished() { return std::move(bytes_); }

 private:
  Bytes bytes_;
};

} // namespace

Bytes signedBytes(const base::Uuid& book, const DayClosure& closure, const DaySignature& signature,
                  base::LocalInstant at,
                  const std::function<base::Uuid(const base::Uuid&)>& entered) {
  SignedWriter out;
  out.text(signatureTag);
  out.id(book);
  out.id(entered(signature.day.uuid()));
  out.id(entered(signature.closure.uuid()));
  out.id(entered(closure.clinical.uuid()));
  out.id(entered(closure.coordinator.uuid()));
  out.id(entered(signature.signer.uuid()));
  out.text(base::nameOf(signature.capacity));
  out.id(signature.key ? entered(signature.key->uuid()) : base::Uuid{});
  out.number(at.at.utc.count());
  out.number(at.offset.count());
  const auto& counts = signature.counts;
  for (const auto count : {counts.consented, counts.screened, counts.absent, counts.declined,
                           counts.left, counts.withdrawn, counts.onHold, counts.notReached})
    out.number(count);
  out.number(signature.schema);
  out.number(static_cast<std::int64_t>(signature.heads.size()));
  for (const auto& head : signature.heads) {
    out.id(head.laptop.uuid());
    out.number(head.sequence);
    out.bytes(head.digest);
  }
  return out.finished();
}

Bytes signedBytes(const base::Uuid& book, const Erasure& erasure,
                  const std::optional<base::MemberId>& author, base::LocalInstant at,
                  const std::function<base::Uuid(const base::Uuid&)>& entered) {
  SignedWriter out;
  out.text("groovekeeper erasure 1");
  out.id(book);
  out.id(entered(erasure.whom.uuid()));
  out.id(author ? entered(author->uuid()) : base::Uuid{});
  out.id(erasure.key ? entered(erasure.key->uuid()) : base::Uuid{});
  out.number(at.at.utc.count());
  out.number(at.offset.count());
  for (const auto& text : {erasure.number, erasure.request, erasure.authority, erasure.reason})
    out.text(text);
  return out.finished();
}

} // namespace gk::roster
