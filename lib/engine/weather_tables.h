#pragma once

#include <array>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "engine/engine.h"
#include "engine/reserves/power_nodes.h"

namespace drystage::engine {

/// The weather of many trips on one calendar, from tables: what people lose, what panels yield and
/// what cabinets ask for, at so much more warmth and sun, by the models themselves; in between,
/// straight lines. Trips differ in the weather of every day, and to ask the models each time takes
/// ten times as long.
class WeatherTables {
 public:
  /// How a body is called for each number from 0 to `count`: in any order, or many at once.
  using ForEach =
      std::function<void(std::size_t count, const std::function<void(std::size_t)>& body)>;

  /// Tables for the course of a plan, and for courses that differ from it in nothing that goes by
  /// the weather. They are the same however `for_each` goes about it.
  WeatherTables(const plan::Plan& plan, const Course& course, const ForEach& for_each = one_by_one);

  /// Fills in the weather and the people of one trip: the conditions of the course's timeline, and
  /// what of the course goes by them. False where the weather is beyond the tables: then nothing
  /// has been filled in.
  bool fill(const plan::Plan& plan, const Drawn& drawn, std::span<const DrawnSky> skies,
            Timeline& timeline, Course& course) const;

 private:
  /// What a party day's people lose, by node of warmth and sun, g/m² in each clock hour.
  struct Loss {
    std::vector<std::array<double, 24>> rest;
    std::vector<std::array<double, 24>> active;
  };

  static void one_by_one(std::size_t count, const std::function<void(std::size_t)>& body);
  [[nodiscard]] bool place(std::span<const DrawnSky> skies,
                           std::vector<reserves::SkyPlace>& out) const;
  void add_losses(const plan::Plan& plan, std::size_t party_day);
  void add_power(const plan::Plan& plan, const Course& course);
  void fill_parties(const plan::Plan& plan, const Drawn& drawn,
                    std::span<const reserves::SkyPlace> skies, Conditions& out) const;
  void fill_places(std::span<const reserves::SkyPlace> skies, Conditions& out) const;
  void fill_steps(const Drawn& drawn, std::span<const reserves::SkyPlace> skies,
                  Conditions& out) const;

  std::shared_ptr<const Timeline> planned_;
  std::vector<double> sun_nodes_;
  std::vector<Loss> losses_;  ///< by PartyDay
  reserves::PowerNodes power_;
};

/// A course whose weather and people change in place from one trip to the next.
class ChangingCourse {
 public:
  /// `tables`: of a course like it; null: none, and each trip asks the models.
  ChangingCourse(std::shared_ptr<const plan::Plan> plan, std::shared_ptr<const Course> planned,
                 std::shared_ptr<const WeatherTables> tables);

  /// The course as one trip has it, with this share of the capacity of its banks; days before
  /// `from_day` need not be right. With nothing drawn it is as planned, to the last digit.
  Course& draw(const Drawn& drawn, double batteries = 1, int from_day = 0);

 private:
  void fill(const Drawn& drawn, int from_day);

  std::shared_ptr<const plan::Plan> plan_;
  std::shared_ptr<const Course> planned_;
  std::shared_ptr<Timeline> timeline_;
  Course course_;
  bool as_planned_ = true;
  std::shared_ptr<const WeatherTables> tables_;
  Skies skies_;
  std::vector<DrawnSky> drawn_;  ///< by PlaceDay
};

}  // namespace drystage::engine
