// SPDX-License-Identifier: MIT
// Two cameras that stand still: the solver against printed cases and against another library.
#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <random>
#include <sstream>

#include "close.hpp"
#include "posture/formulas.hpp"
#include "posture/problem.hpp"
#include "posture/unknowns.hpp"
#include "second_route.hpp"

namespace rangecheck::posture {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using CameraState = std::array<double, 7>;

/// The estimate's own view of a joint, its camera held.
struct SeenByFixed {
  Seen seen;
  CameraState camera;
  template <class T>
  std::array<T, 2> operator()(const std::array<T, 3>& x) const {
    std::array<T, 10> all{x[0], x[1], x[2]};
    for (std::size_t i = 0; i < camera.size(); ++i) all[3 + i] = T(camera[i]);
    return seen.plain(all);
  }
};

struct Picture {
  Eigen::Matrix3d nominal;
  CameraState camera;
  Vector2d at_px;  ///< from the picture's centre

  Vector2d of(const Vector3d& point) const {
    const auto px = projected(camera[0], in_camera(camera, 0, nominal, point));
    return {px[0], px[1]};
  }
};

Problem triangulation(const std::vector<Picture>& pictures, double sigma) {
  Problem problem(3);
  for (const auto& each : pictures) {
    problem.add<2, 3>(0, std::array{0, 1, 2},
                      SeenByFixed{{each.nominal, each.at_px, {sigma, sigma}}, each.camera});
  }
  return problem;
}

Eigen::MatrixXd information(const Problem& problem, const Vector3d& at) {
  return problem.hessian(at, [](Source) { return true; });
}

/// Axes along the world's, `x_m` to the side, focal length 1 or in pixels.
Picture straight(double x_m, double focal, Vector2d at) {
  return {Eigen::Matrix3d::Identity(), {std::log(focal), x_m, 0, 0, 0, 0, 0}, at};
}

/// Two films as people shoot them, of one point, with clicks that are a few pixels off.
std::vector<Picture> two_films(std::mt19937_64& random, const Vector3d& point) {
  std::normal_distribution<double> normal;
  std::vector<Picture> out;
  for (const auto view : {intake::View::face_on, intake::View::down_the_line}) {
    Picture picture{nominal_axes(view), {}, {}};
    const Vector3d place =
        look_at - (3.2 + 0.3 * normal(random)) * picture.nominal.row(2).transpose();
    picture.camera = {std::log(1500 + 100 * normal(random)),
                      place.x() + 0.2 * normal(random),
                      1 + 0.2 * normal(random),
                      place.z() + 0.2 * normal(random),
                      0.03 * normal(random),
                      0.03 * normal(random),
                      0.01 * normal(random)};
    picture.at_px = picture.of(point) + 4 * Vector2d(normal(random), normal(random));
    out.push_back(picture);
  }
  return out;
}

/// 3 x 4 camera matrix, row by row.
std::string matrix_of(const Picture& picture) {
  Eigen::Matrix3d axes;
  const Vector3d turn(picture.camera[4], picture.camera[5], picture.camera[6]);
  for (int i = 0; i < 3; ++i) {
    axes.col(i) = turned(turn, Vector3d(picture.nominal.col(i)));
  }
  const double f = std::exp(picture.camera[0]);
  const Eigen::Matrix3d inner = Vector3d(f, f, 1).asDiagonal() * axes;
  const Vector3d shift = -inner * Vector3d(picture.camera[1], picture.camera[2], picture.camera[3]);
  std::string out;
  for (int row = 0; row < 3; ++row) {
    out += fmt::format("{} {} {} {} ", inner(row, 0), inner(row, 1), inner(row, 2), shift[row]);
  }
  return out;
}

}  // namespace

TEST_CASE("two pictures of a point give the printed place") {
  // P1 = [I|0], P2 = [I|(-1,0,0)], x1 = (.125,.05), x2 = (-.125,.05) -> (.5,.2,4): Hartley &
  // Zisserman, Multiple View Geometry, 2nd ed. 2003, 12.2; computed by hand.
  const Problem problem =
      triangulation({straight(0, 1, {0.125, 0.05}), straight(1, 1, {-0.125, 0.05})}, 0.001);
  const Solved solved = solve(problem, Vector3d(0.3, 0.1, 3));
  CHECK_CLOSE(solved.state[0], 0.5, 1e-6);
  CHECK_CLOSE(solved.state[1], 0.2, 1e-6);
  CHECK_CLOSE(solved.state[2], 4, 1e-6);
}

TEST_CASE("depth from two pictures is as unsure as the formula says") {
  // u(Z) = Z^2 / (f B) sqrt(2) u_px; Z = 4, B = 1, f = 1000, 1 px -> .02263 m: Hartley & Zisserman,
  // the same; computed by hand. It grows with the square of the distance.
  for (const double z : {4.0, 8.0}) {
    const Vector3d point(0.5, 0, z);
    auto first = straight(0, 1000, {}), second = straight(1, 1000, {});
    first.at_px = first.of(point);
    second.at_px = second.of(point);
    const Eigen::MatrixXd covariance =
        information(triangulation({first, second}, 1), point).inverse();
    CHECK_CLOSE(std::sqrt(covariance(2, 2)), z == 4 ? 0.02263 : 4 * 0.02263, 4e-5);
  }
}

TEST_CASE("two pictures from one place say nothing of depth") {
  const Vector3d point(0.5, 0.2, 4);
  auto one = straight(0, 1000, {});
  one.at_px = one.of(point);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> of(
      information(triangulation({one, one}, 1), point));
  // No information along the line of sight, and none of it hides elsewhere.
  CHECK(of.eigenvalues()[0] < 1e-6);
  CHECK(of.eigenvalues()[1] > 1e3);
  CHECK_CLOSE(std::abs(of.eigenvectors().col(0).dot(point.normalized())), 1, 1e-6);
}

TEST_CASE("two films of a point give what another library gives") {
  std::mt19937_64 random(11);
  std::normal_distribution<double> normal;
  std::string lines;
  std::vector<Vector3d> solved;
  for (int i = 0; i < 25; ++i) {
    const Vector3d point =
        look_at + 0.4 * Vector3d(normal(random), normal(random), normal(random) / 2);
    const auto films = two_films(random, point);
    for (const auto& film : films) lines += matrix_of(film);
    for (const auto& film : films) lines += fmt::format("{} {} ", film.at_px.x(), film.at_px.y());
    lines += '\n';
    const Problem problem = triangulation(films, 4);
    solved.emplace_back(solve(problem, solve(problem, look_at).state).state);
  }
  const auto answer = test::by_another_library("posture/two_views.py", lines);
  if (!answer) {
    MESSAGE("skipped: /usr/bin/python3 has no numpy and scipy");
    return;
  }
  std::istringstream numbers(*answer);
  for (const auto& ours : solved) {
    Vector3d theirs;
    numbers >> theirs.x() >> theirs.y() >> theirs.z();
    REQUIRE_FALSE(numbers.fail());
    CHECK_CLOSE((ours - theirs).norm(), 0, 1e-6);
  }
}

}  // namespace rangecheck::posture
