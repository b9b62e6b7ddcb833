#include "office/desk.h"

#include <array>

using namespace gk;
using gk::test::Desk;

namespace {

/// Agresti 1990, Categorical Data Analysis, and the help page of R's mantelhaen.test: rabbits given
/// penicillin at once or after a delay, cured or died, by dose.
const std::string rabbits = "stratum,exposed_kept,exposed_lost,other_kept,other_lost\n"
                            "1/8,0,6,0,5\n1/4,3,3,0,6\n1/2,6,0,2,4\n1,5,1,6,0\n4,2,0,5,0\n";

const std::string counts = "stratum,exposed_kept,exposed_lost,other_kept,other_lost\n";

/// Months to retraction of the breast after radiotherapy alone: Finkelstein and Wolfe 1985,
/// Biometrics 41:933-45.
const std::string radiotherapy =
    "left,right\n"
    "0,5\n0,7\n0,8\n4,11\n5,11\n5,12\n6,10\n7,14\n7,16\n11,15\n11,18\n15,\n17,25\n"
    "17,25\n17,\n18,26\n18,\n19,35\n22,\n24,\n24,\n25,37\n26,40\n27,34\n32,\n33,\n"
    "34,\n36,44\n36,48\n36,\n36,\n37,44\n37,\n37,\n37,\n38,\n40,\n45,\n46,\n46,\n"
    "46,\n46,\n46,\n46,\n46,\n46,\n";

} // namespace

TEST_CASE("A curve from a table has the published masses of breast cosmesis") {
  Desk desk;
  // Masses and log-likelihood: docs/methods.md, section 6.
  const auto told = desk.did({"estimate", "curve", "--json"}, radiotherapy).json();
  const std::vector<std::array<double, 3>> published{
      {4, 5, .0463},   {6, 7, .0334},   {7, 8, .0887},   {11, 12, .0708},
      {24, 25, .0926}, {33, 34, .0818}, {38, 40, .1209}, {46, 48, .4656}};
  const auto& intervals = told.at("intervals");
  REQUIRE(intervals.size() == published.size());
  for (std::size_t i = 0; i < published.size(); ++i) {
    CHECK(intervals[i].at("left") == published[i][0]);
    CHECK(intervals[i].at("right") == published[i][1]);
    CHECK(intervals[i].at("mass").get<double>() == Approx(published[i][2]).margin(5e-5));
  }
  CHECK(told.at("log_likelihood").get<double>() == Approx(-58.06).margin(5e-5));
  CHECK(told.at("teeth") == 46.0);
  CHECK(told.at("still_whole") == 25.0);
}

TEST_CASE("A curve in which nothing or everything failed says so") {
  Desk desk;
  const auto none = desk.did({"estimate", "curve", "-", "--json"}, "left,right\n3,\n5,\n").json();
  REQUIRE(none.at("intervals").size() == 1);
  CHECK(none.at("intervals")[0].at("right").is_null());
  CHECK(none.at("intervals")[0].at("mass") == 1.0);
  CHECK(none.at("log_likelihood") == 0.0);
  CHECK(none.at("notes")[0].get<std::string>().starts_with("No sealant was seen to fail"));
  const auto all = desk.did({"estimate", "curve"}, "left,right\n3,5\n2,9\n7,7\n").out;
  CHECK(all.find("Every sealant was seen to fail.") != std::string::npos);
  CHECK(all.find("nan") == std::string::npos);
}

TEST_CASE("A table of times that cannot be is refused by line and column") {
  Desk desk;
  const auto refused = [&](const std::string& row) {
    return desk.refusal({"estimate", "curve"}, "left,right\n1,2\n" + row + "\n");
  };
  CHECK(refused("5,4") == "estimate.input");
  CHECK(desk.said("line 3, column right: failed before it was last seen whole"));
  CHECK(refused("-1,4") == "estimate.input");
  CHECK(desk.said("line 3, column left: a time cannot be negative"));
  CHECK(refused("1e10,") == "estimate.input");
  for (const std::string bad : {"NaN", "inf", "NA", "2 years"}) {
    CHECK(refused("1," + bad) == "input.csv");
    CHECK(desk.said("line 3, column right"));
  }
  CHECK(refused(",4") == "input.csv");
  CHECK(desk.said("line 3, column left: blank"));
  CHECK(desk.refusal({"estimate", "curve"}, "") == "input.csv");
  CHECK(desk.refusal({"estimate", "curve"}, "left,right\n") == "input.csv");
  CHECK(desk.refusal({"estimate", "curve"}, "left\n1\n") == "input.csv");
  CHECK(desk.said("right"));
  CHECK(desk.refusal({"estimate", "curve"}, "left,right\n0,\n") == "estimate.input");
}

TEST_CASE("The comparison of rabbits has its published odds ratio") {
  Desk desk;
  const auto told = desk.did({"estimate", "compare", "--json"}, rabbits).json();
  CHECK(told.at("odds_ratio").get<double>() == Approx(7));
  CHECK(told.at("low").get<double>() == Approx(1.026713).margin(5e-7));
  CHECK(told.at("high").get<double>() == Approx(47.725133).margin(5e-7));
  CHECK(told.at("chi_squared").get<double>() == Approx(3.9286).margin(5e-5));
  CHECK(told.at("p").get<double>() == Approx(.04747).margin(5e-6));

  const auto words = desk.did({"estimate", "compare"}, rabbits).out;
  CHECK(words.find("7.000, 95% CI 1.027 to 47.725") != std::string::npos);
  CHECK(words.find("observational") != std::string::npos);
  CHECK(words.find("small numbers") != std::string::npos);
  CHECK(words.find("several comparisons") != std::string::npos);
  const auto apart = counts + "a,1,2,0,3\nb,6,0,2,4\na,2,1,0,3\n";
  auto added = desk.did({"estimate", "compare", "--json"}, apart).json();
  CHECK(added.at("repeated_rows") == 1);
  added["repeated_rows"] = 0;
  CHECK(added ==
        desk.did({"estimate", "compare", "--json"}, counts + "a,3,3,0,6\nb,6,0,2,4\n").json());
}

TEST_CASE("A comparison without an odds ratio is answered with a note") {
  Desk desk;
  const auto unbounded = desk.did({"estimate", "compare", "--json"}, counts + "a,5,0,3,4\n").json();
  CHECK(unbounded.at("odds_ratio").is_null());
  CHECK(unbounded.at("high").is_null());
  CHECK(!unbounded.at("notes").empty());
  const auto nothing = desk.did({"estimate", "compare", "--json"}, counts + "a,5,0,3,0\n").json();
  CHECK(nothing.at("odds_ratio").is_null());
  CHECK(nothing.at("p").is_null());
  CHECK(desk.did({"estimate", "compare"}, counts + "a,5,0,3,0\n").out.find("Odds ratio: none") !=
        std::string::npos);
}

TEST_CASE("A table of counts to compare that cannot be is refused by line and column") {
  Desk desk;
  const auto refused = [&](const std::string& row) {
    return desk.refusal({"estimate", "compare"}, counts + row + "\n");
  };
  CHECK(refused("a,1,2,-3,4") == "estimate.input");
  CHECK(desk.said("line 2, column other_kept: a count cannot be negative"));
  CHECK(refused("a,1,2.5,3,4") == "estimate.input");
  CHECK(desk.said("line 2, column exposed_lost: teeth are whole numbers"));
  CHECK(refused("a,1,nan,3,4") == "input.csv");
  CHECK(desk.said("line 2, column exposed_lost"));
  CHECK(refused(",1,2,3,4") == "input.csv");
  CHECK(refused("a,1,2,3") == "input.csv");
  CHECK(refused("a,0,0,0,0") == "estimate.input");
  CHECK(desk.refusal({"estimate", "compare"}, "") == "input.csv");
}

TEST_CASE("Funnel limits have their worked values from a table and from an option") {
  Desk desk;
  // Derived from Spiegelhalter 2005, Stat Med 24:1185-202.
  const auto told = desk.did({"estimate", "funnel", "--target", "0.92", "--tails",
                              "0.001,0.025,0.975,0.999", "--json"},
                             "n\n20\n100\n")
                        .json();
  const std::vector<std::vector<double>> worked{{.6557, .7564, .9934, .9997},
                                                {.8205, .8578, .9646, .9863}};
  REQUIRE(told.at("limits").size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& row = told.at("limits")[i];
    CHECK(row.at("n") == (i == 0 ? 20.0 : 100.0));
    REQUIRE(row.at("limits").size() == 4);
    for (std::size_t k = 0; k < 4; ++k)
      CHECK(row.at("limits")[k].get<double>() == Approx(worked[i][k]).margin(5e-5));
  }
  CHECK(desk.did({"estimate", "funnel", "--target", "0.92", "--n", "20,100", "--json"}).json() ==
        told);
  CHECK(desk.did({"estimate", "funnel", "--target", "0.92", "--n", "20"}).out.find("75.6%") !=
        std::string::npos);
}

TEST_CASE("A funnel that cannot be is refused") {
  Desk desk;
  const auto refused = [&](const std::string& option, const std::string& value) {
    std::vector<std::string> words{"estimate", "funnel"};
    for (const std::string name : {"--target", "--tails", "--n"}) {
      words.push_back(name);
      words.push_back(name == option       ? value
                      : name == "--target" ? "0.92"
                      : name == "--tails"  ? "0.025"
                                           : "20");
    }
    return desk.refusal(words);
  };
  CHECK(refused("--target", "92") == "estimate.input");
  CHECK(refused("--target", "nan") == "input.number");
  CHECK(refused("--tails", "0.025,2") == "estimate.input");
  CHECK(refused("--tails", "0.025,,0.9") == "input.number");
  CHECK(refused("--n", "0") == "estimate.input");
  CHECK(refused("--n", "-4") == "estimate.input");
  CHECK(refused("--n", "ten") == "input.number");
  const auto table = [&](const std::string& text) {
    return desk.refusal({"estimate", "funnel", "--target", "0.92"}, text);
  };
  CHECK(table("n\n20\n-1\n") == "estimate.input");
  CHECK(desk.said("line 3, column n"));
  CHECK(table("n\n0\n") == "estimate.input");
  CHECK(table("n\n1e7\n") == "estimate.input");
  CHECK(table("n\nNaN\n") == "input.csv");
  CHECK(table("") == "input.csv");
  CHECK(desk.refusal({"estimate", "funnel", "-", "--target", "0.92", "--n", "20"}, "n\n20\n") ==
        "call.malformed");
  CHECK(desk.refusal({"estimate", "funnel", "--n", "20"}) == "call.malformed");
}

TEST_CASE("Units are drawn to the mean by what their own numbers leave open") {
  Desk desk;
  const auto told = desk.did({"estimate", "shrink", "-", "--json"},
                             "unit,examined,retained\nA,40,38\nB,12,6\nC,25,24\nD,60,41\nE,8,8\n"
                             "F,30,29\nG,18,10\nH,50,49\nI,0,0\nD,0,0\n")
                        .json();
  const double alpha = told.at("alpha").get<double>();
  const double beta = told.at("beta").get<double>();
  CHECK(told.at("mean").get<double>() == Approx(alpha / (alpha + beta)));
  const auto& units = told.at("shrunken");
  REQUIRE(units.size() == 9);
  CHECK(units[1].at("unit") == "B");
  CHECK(units[1].at("raw") == 0.5);
  CHECK(units[1].at("shrunken").get<double>() == Approx((6 + alpha) / (12 + alpha + beta)));
  CHECK(units[4].at("shrunken").get<double>() < 1); // 8 of 8 is not all
  CHECK(units[8].at("raw").is_null());
  CHECK(units[8].at("shrunken").get<double>() == Approx(alpha / (alpha + beta)));
}

TEST_CASE("Units at the limits of the likelihood are answered with a note") {
  Desk desk;
  const std::string header = "unit,examined,retained\n";
  for (const std::string rows : {"A,4,4\nB,6,6\n", "A,4,0\nB,6,0\n", "A,9,5\n", "A,9,9\n",
                                 "A,4,4\nB,6,0\n", "A,10,9\nB,20,18\n"}) {
    INFO(rows);
    const auto told = desk.did({"estimate", "shrink", "--json"}, header + rows).json();
    CHECK(!told.at("notes").empty());
    CHECK(told.at("shrunken")[0].at("shrunken").is_number());
    CHECK(desk.did({"estimate", "shrink"}, header + rows).out.find("nan") == std::string::npos);
  }
}

TEST_CASE("A table of units that cannot be is refused by line and column") {
  Desk desk;
  const auto refused = [&](const std::string& row) {
    return desk.refusal({"estimate", "shrink"}, "unit,examined,retained\nA,4,3\n" + row + "\n");
  };
  CHECK(refused("B,4,5") == "estimate.input");
  CHECK(desk.said("line 3, column retained: more than examined"));
  CHECK(refused("B,-4,0") == "estimate.input");
  CHECK(desk.said("line 3, column examined: a count cannot be negative"));
  CHECK(refused("B,1e7,0") == "estimate.input");
  CHECK(refused("B,four,0") == "input.csv");
  CHECK(refused("B,4,NaN") == "input.csv");
  CHECK(refused(",4,0") == "input.csv");
  CHECK(desk.refusal({"estimate", "shrink"}, "") == "input.csv");
  CHECK(desk.refusal({"estimate", "shrink"}, "unit,examined,retained\nA,0,0\n") ==
        "estimate.input");
}

TEST_CASE("Quoted cells and either line ending are read row by row") {
  Desk desk;
  const auto told = desk.did({"estimate", "shrink", "--json"},
                             "\xEF\xBB\xBF\"unit\",note, examined ,retained\r\n"
                             "\"Cobble, \"\"east\"\"\",\"two\nlines\",4,3\r\n\r\n"
                             "\"Cobble, \"\"east\"\"\",,2,1\r\nB,,5,\"2\"")
                        .json();
  REQUIRE(told.at("shrunken").size() == 2);
  CHECK(told.at("shrunken")[0].at("unit") == "Cobble, \"east\"");
  CHECK(told.at("shrunken")[0].at("examined") == 6.0);
  const auto refused = [&](const std::string& rows) {
    return desk.refusal({"estimate", "shrink"}, "unit,examined,retained\n" + rows);
  };
  CHECK(refused("\"A\nB\",4,3\nC,4,9\n") == "estimate.input");
  CHECK(desk.said("line 4, column retained"));
  CHECK(refused("\"A,4,3\n") == "input.csv");
  CHECK(desk.said("line 2, column 1: a quoted cell is never closed"));
  CHECK(refused("A,4\"4\",3\n") == "input.csv");
  CHECK(desk.said("line 2, column 2"));
  CHECK(refused("\"A\"x,4,3\n") == "input.csv");
  CHECK(refused("\xFF,4,3\n") == "input.csv");
  CHECK(refused("A,4,3,3\n") == "input.csv");
}

TEST_CASE("Thousands of labels are told apart wherever they come") {
  Desk desk;
  std::string table = "child,examined,retained\n";
  for (int round = 0; round < 2; ++round)
    for (int child = 0; child < 5000; ++child)
      table += (round == 0 ? "c" + std::to_string(child) : "\"c" + std::to_string(child) + "\"") +
               ",2," + std::to_string(child % 3 == 0 ? 1 : 2) + "\n";
  const auto told = desk.did({"estimate", "retention", "--json"}, table).json();
  CHECK(told.at("children") == 5000);
  CHECK(told.at("teeth") == 20000.0);
}
