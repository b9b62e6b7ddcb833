// A record about a child that no merge knows would be lost when two cards become one.
#include "session/cards/merge_rules.h"

namespace {

struct NewRecord {
  gk::roster::ChildId child;
};

} // namespace

#ifndef GK_WRONG
template <>
struct gk::session::MergeRule<NewRecord> : gk::session::KnownOfChild {};
#endif

static_assert(gk::session::countOfMerged<gk::store::TypeList<NewRecord>>() == 1);
