#include "ui/fixtures/desk_fixture.h"
#include "ui/models/table_model.h"

#include <QAbstractItemModelTester>

using namespace gk;
using namespace gk::test;

TEST_CASE("A report on the screen has its cells as they are") {
  ui::TableModel model;
  const QAbstractItemModelTester tester(&model);
  model.show({"Title",
              {{"School"}, {"% of enrolled", reports::Kind::share}},
              {{"Elderbrook Middle", "44.3"}},
              {}});
  CHECK(model.rowCount() == 1);
  CHECK(model.data(model.index(0, 1), Qt::DisplayRole) == u"44.3"_s);
  CHECK(model.headerData(1, Qt::Horizontal, Qt::DisplayRole) == u"% of\nenrolled"_s);
}

TEST_CASE("Numbers stand to the right with their headings, words to the left", "[case-478]") {
  ui::TableModel model;
  using reports::Kind;
  model.show({"Title",
              {{"School"},
               {"Students", Kind::count},
               {"%", Kind::share},
               {"Per day", Kind::number},
               {"95% CI", Kind::range}},
              {{"Elderbrook Middle", 1111, "44.3", "1.0", "84.3-89.7"}},
              {}});
  for (int column = 0; column < 5; ++column) {
    CAPTURE(column);
    const auto side = column == 0 ? Qt::AlignLeft : Qt::AlignRight;
    for (const auto& at : {model.data(model.index(0, column), Qt::TextAlignmentRole),
                           model.headerData(column, Qt::Horizontal, Qt::TextAlignmentRole)})
      CHECK(at.value<Qt::Alignment>().testFlag(side));
  }
}
