#include "support/by_hand.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <utility>

namespace drystage::support::by_hand {
namespace {

constexpr double depart_h = 8;
constexpr double most_h = 10;
constexpr double no_limit = std::numeric_limits<double>::infinity();

/// What happens: the hour since the first midnight, and how long wheels have turned by then.
struct Moment {
  double at_h = 0;
  double driven_h = 0;
  int place = -1;  ///< where the party is, and could take something; -1: nowhere
  int visit = 0;
  int item = -1;          ///< a stop of the plan
  bool midnight = false;  ///< the end of a day

  [[nodiscard]] int day() const { return static_cast<int>(at_h / hours_a_day); }
};

/// The diary of the trip, in order.
std::vector<Moment> diary(const Plan& plan) {
  std::vector<Moment> out;
  double now_h = 0;
  double driven_h = 0;
  double today_h = 0;
  int place = 0;
  int visit = 0;
  const auto note = [&](int where, int item, bool midnight) {
    out.push_back({.at_h = now_h,
                   .driven_h = driven_h,
                   .place = where,
                   .visit = visit,
                   .item = item,
                   .midnight = midnight});
  };
  const auto clock = [&] { return now_h - hours_a_day * static_cast<int>(now_h / hours_a_day); };
  // To the next midnight; who is at a place could have been to the shop at eight.
  const auto sleep = [&](int where) {
    if (where >= 0 && clock() < depart_h) {
      const double midnight_h = now_h - clock();
      now_h = midnight_h + depart_h;
      note(where, -1, false);
    }
    now_h = hours_a_day * (static_cast<int>(now_h / hours_a_day) + 1);
    note(-1, -1, true);
    today_h = 0;
  };
  for (std::size_t i = 0; i < plan.items.size(); ++i) {
    const Item& item = plan.items[i];
    for (int night = 0; night < item.nights; ++night) sleep(place);
    if (!item.orders.empty()) {
      const bool outset = now_h <= 0;
      if (!outset && clock() < depart_h) now_h += depart_h - clock();
      note(place, static_cast<int>(i), false);
    }
    double left_h = item.hours;
    while (item.drive_to >= 0 && left_h > 0) {
      if (today_h >= most_h) {
        sleep(-1);
        continue;
      }
      if (clock() < depart_h) now_h += depart_h - clock();
      const double part_h = std::min(left_h, most_h - today_h);
      now_h += part_h;
      driven_h += part_h;
      today_h += part_h;
      left_h -= part_h;
    }
    if (item.drive_to < 0) continue;
    ++visit;
    place = item.drive_to;
    note(place, -1, false);
  }
  if (clock() > 0) sleep(place);
  return out;
}

bool is_open(const Shop& shop, int day) { return (shop.open >> (day % 7) & 1U) != 0; }

/// The sheet of paper.
class Sheet {
 public:
  explicit Sheet(const Plan& plan) : plan_(plan), stocks_(plan.vehicles), diary_(diary(plan)) {
    stocks_.push_back(plan.water);
    for (std::size_t m = 0; m < diary_.size(); ++m) {
      if (diary_[m].item >= 0) list_orders(m);
    }
    find_amounts();
  }

  std::vector<std::vector<Day>> days() const {
    const int count = diary_.back().day();
    std::vector<std::vector<Day>> out(static_cast<std::size_t>(count),
                                      std::vector<Day>(stocks_.size()));
    const Book hopeful = keep_book(true, &out);
    const Book certain = keep_book(false, nullptr);
    for (int day = 0; day < count; ++day) {
      for (std::size_t s = 0; s < stocks_.size(); ++s) {
        Day& one = out[static_cast<std::size_t>(day)][s];
        one.has_l = hopeful.morning_l[static_cast<std::size_t>(day)][s];
        one.must_l = must_l(day, s, certain);
      }
    }
    return out;
  }

 private:
  /// An order for one stock.
  struct Line {
    std::size_t moment = 0;
    int item = 0;
    bool together = false;  ///< one amount for all vehicles
    std::size_t stock = 0;
    How how = How::fill;
    double amount_l = 0;
    const Shop* shop = nullptr;
  };

  /// What a way through the diary comes to.
  struct Book {
    std::vector<double> taken_l{};                 ///< by line
    std::vector<std::vector<double>> before_l{};   ///< by line: the stock before it
    std::vector<std::vector<double>> morning_l{};  ///< by day, by stock
  };

  [[nodiscard]] std::size_t water() const { return stocks_.size() - 1; }

  [[nodiscard]] const Shop* shop_at(int place, bool diesel) const {
    if (place < 0) return nullptr;
    const Place& one = plan_.places[static_cast<std::size_t>(place)];
    const std::optional<Shop>& shop = diesel ? one.diesel : one.water;
    return shop ? &*shop : nullptr;
  }

  void list_orders(std::size_t m) {
    const Moment& moment = diary_[m];
    for (const Order& order : plan_.items[static_cast<std::size_t>(moment.item)].orders) {
      Line line{.moment = m,
                .item = moment.item,
                .together = order.diesel && order.vehicle < 0,
                .stock = water(),
                .how = order.how,
                .amount_l = order.amount_l,
                .shop = shop_at(moment.place, order.diesel)};
      for (std::size_t v = 0; order.diesel && v < plan_.vehicles.size(); ++v) {
        if (order.vehicle >= 0 && order.vehicle != static_cast<int>(v)) continue;
        line.stock = v;
        lines_.push_back(line);
      }
      if (!order.diesel) lines_.push_back(line);
    }
  }

  [[nodiscard]] bool is_to_be_had(const Line& line, bool hopeful) const {
    return is_open(*line.shop, diary_[line.moment].day()) && (hopeful || line.shop->confirmed);
  }

  /// What a stock uses from one moment to another.
  [[nodiscard]] double used_l(std::size_t stock, const Moment& from, const Moment& to) const {
    const double hours = stock == water() ? to.at_h - from.at_h : to.driven_h - from.driven_h;
    return hours * stocks_[stock].uses;
  }

  /// Same thing, same visit.
  [[nodiscard]] bool share(const Line& a, const Line& b) const {
    return diary_[a.moment].visit == diary_[b.moment].visit &&
           (a.stock == water()) == (b.stock == water());
  }

  [[nodiscard]] double takes_l(std::size_t l, double level_l, const Book& book) const {
    const Line& line = lines_[l];
    double asked_l = line.how == How::fill ? no_limit : line.amount_l;
    double there_l = line.shop->most.value_or(no_limit);
    for (std::size_t before = 0; before < l; ++before) {
      const Line& other = lines_[before];
      if (!share(line, other)) continue;
      there_l -= book.taken_l[before];
      const bool divided = line.how == How::amount && line.together && other.item == line.item;
      if (divided) asked_l -= book.taken_l[before];
    }
    const double room_l = stocks_[line.stock].holds_l - level_l;
    return std::max(0.0, std::min({asked_l, there_l, room_l}));
  }

  /// Goes through the diary; up to a line, or to its end.
  Book keep_book(bool hopeful, std::vector<std::vector<Day>>* out,
                 std::size_t until = std::numeric_limits<std::size_t>::max()) const {
    Book book;
    book.taken_l.resize(lines_.size());
    book.before_l.resize(lines_.size());
    std::vector<double> level_l;
    for (const Stock& stock : stocks_) level_l.push_back(stock.filled_l);
    std::vector<double> least_l(stocks_.size(), no_limit);
    std::vector<double> short_l(stocks_.size());
    Moment before;
    std::size_t next = 0;
    bool set_out = false;
    for (std::size_t m = 0; m < diary_.size(); ++m) {
      const Moment& now = diary_[m];
      if (!set_out && now.at_h > 0) {
        set_out = true;
        book.morning_l.push_back(level_l);
      }
      for (std::size_t s = 0; s < stocks_.size(); ++s) {
        level_l[s] -= used_l(s, before, now);
        if (level_l[s] < 0) {
          short_l[s] -= level_l[s];
          level_l[s] = 0;
        }
        if (now.at_h > 0) least_l[s] = std::min(least_l[s], level_l[s] - stocks_[s].margin_l);
      }
      for (; next < lines_.size() && lines_[next].moment == m; ++next) {
        book.before_l[next] = level_l;
        if (next == until) return book;
        const Line& line = lines_[next];
        if (!is_to_be_had(line, hopeful)) continue;
        book.taken_l[next] = takes_l(next, level_l[line.stock], book);
        level_l[line.stock] += book.taken_l[next];
      }
      before = now;
      if (!now.midnight) continue;
      if (out != nullptr) {
        for (std::size_t s = 0; s < stocks_.size(); ++s) {
          Day& day = (*out)[static_cast<std::size_t>(now.day() - 1)][s];
          day.end_l = level_l[s];
          day.short_l = std::exchange(short_l[s], 0);
          day.slack_l = std::exchange(least_l[s], no_limit);
        }
      }
      book.morning_l.push_back(level_l);
    }
    return book;
  }

  /// Forwards, each from the levels that those before it leave.
  void find_amounts() {
    for (std::size_t l = 0; l < lines_.size(); ++l) {
      Line& line = lines_[l];
      if (line.how != How::to_next) continue;
      double amount_l = 0;
      for (const bool hopeful : {true, false}) {
        if (!is_to_be_had(line, hopeful)) continue;
        const Book book = keep_book(hopeful, nullptr, l);
        std::size_t then = diary_.size() - 1;
        for (std::size_t n = lines_.size(); n-- > l + 1;) {
          if (lines_[n].stock == line.stock && is_to_be_had(lines_[n], hopeful)) {
            then = lines_[n].moment;
          }
        }
        const double wanted_l =
            used_l(line.stock, diary_[line.moment], diary_[then]) + stocks_[line.stock].margin_l;
        amount_l = std::max(amount_l, wanted_l - book.before_l[l][line.stock]);
      }
      line.amount_l = amount_l;
    }
  }

  /// What a stock may take of a limited supply in a visit: as in the certain book, and an equal
  /// part of what is left.
  [[nodiscard]] double part_l(std::size_t l, const Book& certain) const {
    std::vector<bool> takers(stocks_.size());
    double own_l = 0;
    double left_l = *lines_[l].shop->most;
    for (std::size_t n = 0; n < lines_.size(); ++n) {
      if (!share(lines_[l], lines_[n]) || !is_to_be_had(lines_[n], false)) continue;
      takers[lines_[n].stock] = true;
      left_l -= certain.taken_l[n];
      if (lines_[n].stock == lines_[l].stock) own_l += certain.taken_l[n];
    }
    return own_l + std::max(0.0, left_l) / static_cast<double>(std::ranges::count(takers, true));
  }

  /// From the supply back to the morning: before each stop there must be what is used until then
  /// and what must be there after it, less what the stop brings; and never less than the margin.
  [[nodiscard]] double must_l(int day, std::size_t stock, const Book& certain) const {
    Moment morning{.at_h = hours_a_day * day};
    std::size_t first = 0;
    for (std::size_t m = 0; m < diary_.size(); ++m) {
      if (diary_[m].midnight && diary_[m].day() == day) morning = diary_[m];
      if (diary_[m].at_h <= morning.at_h) first = m + 1;
    }
    std::size_t end = diary_.size() - 1;
    for (std::size_t m = diary_.size(); m-- > first;) {
      const Shop* shop = shop_at(diary_[m].place, stock != water());
      const bool sure =
          shop != nullptr && shop->confirmed && !shop->most && is_open(*shop, diary_[m].day());
      if (sure) end = m;
    }
    const Stock& one = stocks_[stock];
    double must = one.margin_l;
    for (std::size_t m = end + 1; m-- > first;) {
      // More than it can hold must be there before the stop too.
      const double brought = m < end && must <= one.holds_l ? brought_l(m, stock, certain) : 0;
      must = std::max(one.margin_l, must - brought);
      must += used_l(stock, m > first ? diary_[m - 1] : morning, diary_[m]);
    }
    return must;
  }

  /// At the one order for the stock in that stop, if it is at a limited supply.
  [[nodiscard]] double brought_l(std::size_t m, std::size_t stock, const Book& certain) const {
    for (std::size_t l = 0; l < lines_.size(); ++l) {
      const Line& line = lines_[l];
      if (line.moment != m || line.stock != stock) continue;
      return is_to_be_had(line, false) && line.shop->most ? part_l(l, certain) : 0;
    }
    return 0;
  }

  const Plan& plan_;
  std::vector<Stock> stocks_;
  std::vector<Moment> diary_;
  std::vector<Line> lines_{};
};

}  // namespace

std::vector<std::vector<Day>> work_out(const Plan& plan) { return Sheet(plan).days(); }

}  // namespace drystage::support::by_hand
