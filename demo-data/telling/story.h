#pragma once

#include "plan/plan.h"
#include "session/session.h"
#include "telling/teller.h"

namespace gk::demo {

struct Team {
  base::MemberId oriel;               ///< hygienist
  base::MemberId tamsin;              ///< hygienist
  base::MemberId bram;                ///< assistant
  base::MemberId ines;                ///< coordinator
  base::MemberId corvin;              ///< manager
  std::optional<base::MemberId> juno; ///< assistant, new in fall 2026
};

struct Kit {
  kit::LightId l1;
  kit::LightId l2;
  kit::LightId l3;
  kit::LotId fern2512; ///< light-cure sealant, used up to its expiry in October 2026
  kit::LotId fern2609; ///< the same, newer
  kit::LotId thistle;  ///< etchant
  kit::LotId clay;     ///< glass ionomer
  kit::LotId birch;    ///< varnish with rosin
  kit::LotId alder;    ///< varnish without
};

/// A child of fall 2025 as the next fall needs it.
struct Student {
  roster::ChildId id;
  ChildPlan plan;
};

/// The children of rooms 6 and 7 at Cobble Lantern that the last day is about.
struct NamedChildren {
  roster::ChildId mina;
  roster::ChildId osei; ///< 1044
  roster::ChildId lupe;
  roster::ChildId teodor;
  roster::ChildId wren;
  roster::ChildId idris;
  roster::ChildId pia;
  roster::ChildId calla;
  roster::ChildId otherOsei; ///< 1051, with the same name
  roster::ChildId hana;
  roster::ChildId jory;  ///< consent withdrawn on the day
  roster::ChildId nell;  ///< her twin brother's form says no
  roster::ChildId ruben; ///< two forms that disagree
};

/// All that the story knows while it is told. One clock, two laptops.
struct Story {
  Teller teller;
  base::Path work; ///< folder of the two books and of the stick that goes between them
  std::optional<session::Session> a{};
  std::optional<session::Session> b{};
  std::optional<Team> team{};
  std::optional<Kit> kit{};
  std::vector<roster::TermId> terms{};     ///< 2025, 2026
  std::vector<roster::SchoolId> schools{}; ///< in the order of county()
  /// Of each school the sealed children of 2025, those found a year later first.
  std::vector<std::vector<Student>> sealedIn2025{};
  std::vector<std::vector<Student>> othersIn2025{};
  std::optional<NamedChildren> named{};
  std::vector<Student> othersOfLastDay{}; ///< the first four are sealed, the others not seen
  std::optional<roster::DayId> dayBeforeLast{};
  int nextNumber = 1100; ///< for the next slip that is printed
  std::size_t nextName = 0;

  [[nodiscard]] session::Session& at(Desk desk) { return desk == Desk::a ? *a : *b; }
  /// A copy of one laptop's book, taken in by the other.
  void carry(Desk from, Desk to);
};

/// Which fall of the story.
enum class Autumn { of2025, of2026 };
inline std::size_t placeOf(Autumn autumn) {
  return static_cast<std::size_t>(autumn);
}

// The chapters, in order.
void setUp(Story& story);
void tellAutumn2025(Story& story);
/// Up to the evening before 17 November, when laptop A has all.
void tellAutumn2026(Story& story);
/// `untilSigned` or only the first children of the morning.
void tellLastDay(Story& story, bool untilSigned);

} // namespace gk::demo
