#include "store/schema/owners.h"

#include <algorithm>

namespace gk::store {

namespace {

// A check reads a book of a hundred thousand children; it does not keep the salt of each.
constexpr std::size_t mostSalts = 4096;
constexpr int mostSteps = 8; // a retraction of a step of a field of a child

} // namespace

OwnedEntry ownedEntry(const OwnSchema& own, const Statement& row) {
  using MaybeKey = OwnedEntry::MaybeKey;
  return {row.column<std::int64_t>(own.idColumn),
          row.column<std::int64_t>(own.kindColumn),
          row.column<MaybeKey>(own.subjectColumn),
          row.column<MaybeKey>(own.supersedesColumn),
          {},
          {}};
}

Owners::Owners(Connection& book, std::string_view database, const OwnSchema& own)
    : book_(book), database_(std::string(database) + "."), own_(own) {
  auto any = book.prepare("SELECT EXISTS (SELECT 1 FROM " + database_ + "erased_entry)");
  hasErased_ = any.step() && any.column<bool>(0);
}

const OwnTable* Owners::tableOf(std::int64_t kind) const {
  const auto found = std::ranges::lower_bound(own_.records, kind, {}, &OwnTable::kind);
  return found != own_.records.end() && found->kind == kind ? &*found : nullptr;
}

std::optional<Owner> Owners::read(OwnedEntry entry, int steps) {
  const auto* const table = tableOf(entry.kind);
  const bool hasChild = table != nullptr && table->has("child");
  if (hasChild || (table != nullptr && table->has("field"))) {
    auto row = book_.prepare("SELECT " + std::string(hasChild ? "child" : "field") + " FROM " +
                             database_ + '"' + table->name + "\" WHERE entry = ?1");
    row.bind(1, entry.id);
    if (row.step()) (hasChild ? entry.child : entry.field) = row.column<MaybeKey>(0);
  }
  return of(entry, steps);
}

std::optional<Owner> Owners::of(const OwnedEntry& entry, int steps) {
  if (hasErased_) {
    auto row =
        book_.prepare("SELECT child, content FROM " + database_ + "erased_entry WHERE id = ?1");
    row.bind(1, entry.id);
    if (row.step()) {
      Owner owner{row.column<std::int64_t>(0), {}, crypto::Hash{}};
      const auto bytes = row.column<std::vector<std::uint8_t>>(1);
      if (bytes.size() == owner.erased->size()) std::ranges::copy(bytes, owner.erased->begin());
      return owner;
    }
  }
  MaybeKey child = entry.kind == own_.childKind ? entry.subject.value_or(entry.id) : entry.child;
  if (!child && entry.field) {
    // The steps of one field follow each other.
    if (!lastField_ || lastField_->first != *entry.field)
      lastField_.emplace(*entry.field, childOf(*entry.field, steps + 1));
    child = lastField_->second;
  }
  if (!child && entry.kind == own_.retractionKind && entry.supersedes)
    child = childOf(*entry.supersedes, steps + 1);
  if (!child) return std::nullopt;
  Owner owner{*child};
  if (const auto known = salts_.find(*child); known != salts_.end()) {
    owner.salt = known->second;
    return owner;
  }
  auto row = book_.prepare("SELECT salt FROM " + database_ + "child_salt WHERE child = ?1");
  row.bind(1, *child);
  if (row.step()) owner.salt = row.column<Salt>(0);
  if (salts_.size() >= mostSalts) salts_.clear();
  salts_.emplace(*child, owner.salt);
  return owner;
}

/// Of another entry, which may be erased itself.
Owners::MaybeKey Owners::childOf(std::int64_t entry, int steps) {
  if (steps > mostSteps) return std::nullopt;
  OwnedEntry known{entry};
  {
    auto row =
        book_.prepare("SELECT kind, subject, supersedes FROM " + database_ + "entry WHERE id = ?1");
    row.bind(1, entry);
    if (!row.step()) return std::nullopt;
    known.kind = row.column<std::int64_t>(0);
    known.subject = row.column<MaybeKey>(1);
    known.supersedes = row.column<MaybeKey>(2);
  }
  const auto owner = read(known, steps);
  return owner ? MaybeKey(owner->child) : std::nullopt;
}

} // namespace gk::store
