// SPDX-License-Identifier: MIT
// Formulas of the estimate against printed cases, another library's rotations and differences.
#include "posture/formulas.hpp"

#include <random>

#include "close.hpp"
#include "posture/problem.hpp"
#include "posture/space_formulas.hpp"
#include "posture/unknowns.hpp"

namespace rangecheck::posture {
namespace {

using Eigen::Vector3d;

const Eigen::Matrix3d level = nominal_axes(intake::View::face_on);

/// Derivatives by ceres::Jet against central differences at `x`, each over its own size.
template <int M, int K, class Formula>
void check_derivatives(const std::string& name, const Formula& formula, std::array<double, K> x) {
  CAPTURE(name);
  std::array<int, K> at;
  for (int k = 0; k < K; ++k) at[k] = k;
  const AutomaticFactor<M, K, Formula> factor(0, at, formula);
  Eigen::Matrix<double, M, 1> residual, above, below;
  Eigen::MatrixXd jacobian;
  factor.evaluate(x.data(), residual.data(), &jacobian);
  REQUIRE(jacobian.allFinite());
  CHECK(jacobian.norm() > 1e-3);
  constexpr double step = 1e-6;
  for (int k = 0; k < K; ++k) {
    CAPTURE(k);
    auto moved = x;
    moved[k] += step;
    factor.evaluate(moved.data(), above.data(), nullptr);
    moved[k] -= 2 * step;
    factor.evaluate(moved.data(), below.data(), nullptr);
    const Eigen::VectorXd difference = (above - below) / (2 * step);
    CHECK((jacobian.col(k) - difference).norm() <= 1e-5 * (1 + jacobian.col(k).norm()));
  }
}

/// A camera of 1500 px, 3.4 m away, a little off square; then its point in front.
constexpr std::array<double, 7> camera{7.313, 0.15, 1.1, 3.6, 0.03, -0.02, 0.01};

template <std::size_t... N>
auto joined(const std::array<double, N>&... parts) {
  std::array<double, (N + ...)> out{};
  std::size_t at = 0;
  const auto append = [&](const auto& part) {
    for (const double each : part) out[at++] = each;
  };
  (append(parts), ...);
  return out;
}

const std::array<double, 3> hip{0.11, 0.90, -0.06}, knee{0.18, 0.51, 0.10}, ankle{0.19, 0.08, 0.05},
    heel{0.18, 0.02, 0.01}, toe{0.26, 0.03, 0.25}, small_toe{0.31, 0.02, 0.20},
    shoulder{0.17, 1.30, 0.22}, other_shoulder{-0.19, 1.26, 0.25};

}  // namespace

TEST_CASE("a pinhole camera projects as the textbook's") {
  // f = 1000, c = (960, 540), X = (.5, -.2, 4) -> (1085, 490): Hartley & Zisserman, Multiple View
  // Geometry, 2nd ed. 2003, ch. 6; computed by hand.
  const std::array<double, 7> at_origin{std::log(1000), 0, 0, 0, 0, 0, 0};
  const Vector3d seen =
      in_camera(at_origin, 0, Eigen::Matrix3d(Eigen::Matrix3d::Identity()), Vector3d(0.5, -0.2, 4));
  const auto px = projected(at_origin[0], seen);
  CHECK_CLOSE(960 + px[0], 1085, 1e-9);
  CHECK_CLOSE(540 + px[1], 490, 1e-9);
}

TEST_CASE("cameras look where their view's name says") {
  const Vector3d target(1, 0, 0), up(0, 1, 0), ball(0, 0, 1);
  const Eigen::Matrix3d front = nominal_axes(intake::View::face_on);
  const Eigen::Matrix3d side = nominal_axes(intake::View::down_the_line);
  // Face-on: the target to the right of the picture, the camera looking from the ball to the
  // golfer.
  CHECK((front * target - Vector3d(1, 0, 0)).norm() < 1e-12);
  CHECK((front * up - Vector3d(0, -1, 0)).norm() < 1e-12);
  CHECK((front * ball - Vector3d(0, 0, -1)).norm() < 1e-12);
  // Down the line: the ball to the right, the camera looking at the target.
  CHECK((side * target - Vector3d(0, 0, 1)).norm() < 1e-12);
  CHECK((side * up - Vector3d(0, -1, 0)).norm() < 1e-12);
  CHECK((side * ball - Vector3d(1, 0, 0)).norm() < 1e-12);
}

TEST_CASE("a Gibbs vector turns as Eigen's angle and axis do") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> number(-1, 1);
  for (int i = 0; i < 50; ++i) {
    const Vector3d axis = Vector3d(number(random), number(random), number(random)).normalized();
    const Vector3d v(number(random), number(random), number(random));
    const double angle = 2.5 * number(random);
    const Vector3d by_eigen = Eigen::AngleAxisd(angle, axis) * v;
    CHECK((turned(Vector3d(std::tan(angle / 2) * axis), v) - by_eigen).norm() < 1e-12);
  }
  CHECK((turned(Vector3d(0, 0, 0), Vector3d(1, 2, 3)) - Vector3d(1, 2, 3)).norm() == 0);
}

TEST_CASE("a golfer who stands open has his own square") {
  // Open by 20 degrees: the lead end of a line is farther from the ball line, at smaller z.
  const double turn = Angle::degrees(20).in_radians();
  const Vector3d open_line(1.75 * std::cos(turn), 0.35, -1.75 * std::sin(turn));
  const Vector3d own = own_step(open_line, 1.75, turn);
  CHECK((own - Vector3d(1, 0.2, 0)).norm() < 1e-12);
}

TEST_CASE("the robust loss is Cauchy's, and leaves small residuals alone") {
  // Half the sum of squares is c^2/2 log(1 + s/c^2), c = 2.385.
  const auto loss = [](double r) {
    const auto whitened = robust(std::array{0.6 * r, 0.8 * r});
    return (whitened[0] * whitened[0] + whitened[1] * whitened[1]) / 2;
  };
  const double c2 = 2.385 * 2.385;
  for (const double r : {0.1, 1.0, 2.385, 10.0, 300.0}) {
    CHECK_CLOSE(loss(r), c2 / 2 * std::log(1 + r * r / c2), 1e-9);
  }
  CHECK_CLOSE(loss(0.01), 0.00005, 1e-8);
  // A landmark 100 spreads off costs less than one 5 off would without it.
  CHECK(loss(100) < 5 * 5 * 0.9);
}

TEST_CASE("joints bend one way") {
  const BendsOneWay knee_bends{+1, 0.02}, elbow_bends{-1, 0.02};
  const auto at = [](double z) {
    return joined(std::array{0., 0.9, 0.}, std::array{0., 0.5, z}, std::array{0., 0.1, 0.});
  };
  CHECK(knee_bends(at(0.05))[0] == 0);
  CHECK_CLOSE(knee_bends(at(-0.04))[0], -2, 1e-6);
  CHECK(elbow_bends(at(-0.05))[0] == 0);
  CHECK_CLOSE(std::abs(elbow_bends(at(0.04))[0]), 2, 1e-6);
}

TEST_CASE("a line seen from above is as open as it is held to be") {
  const double degree = M_PI / 180;
  // Lead end at 30 degrees open, and right round at 170: no half turn is near the mean.
  for (const double open : {30.0, 170.0, -95.0}) {
    const double c = std::cos(open * degree), s = std::sin(open * degree);
    const std::array<double, 6> line{c, 0.9, -s, 0, 0.9, 0};
    CHECK_CLOSE((LineOpen{open * degree, degree}(line)[0]), 0, 1e-9);
    CHECK_CLOSE((LineOpen{(open - 10) * degree, degree}(line)[0]), 10, 1e-9);
  }
}

TEST_CASE("automatic derivatives are those of differences: the body") {
  const std::array stature{1.74}, turn{0.12};
  const Vector3d mean(0.1, 0.5, -0.04), sigma(0.05, 0.04, 0.06);
  check_derivatives<1, 1>("near", Near{1.69, 0.15}, stature);
  check_derivatives<3, 5>("near place", NearPlace{mean, sigma}, joined(hip, stature, turn));
  check_derivatives<3, 8>("near parent", NearParent{{mean, sigma}},
                          joined(hip, knee, stature, turn));
  check_derivatives<1, 7>("segment", SegmentLength{0.243, 0.013}, joined(hip, knee, stature));
  check_derivatives<1, 25>("ankle to shoulder", AnkleToShoulder{0.766, 0.024},
                           joined(ankle, knee, hip, shoulder, std::array{-0.18, 0.08, 0.05},
                                  std::array{-0.13, 0.50, 0.08}, std::array{-0.08, 0.9, -0.05},
                                  other_shoulder, stature));
  check_derivatives<1, 6>("distance", Distance{0.09, 0.028}, joined(hip, knee));
  check_derivatives<1, 12>("equal length", EqualLength{0.008},
                           joined(hip, knee, shoulder, other_shoulder));
  check_derivatives<3, 10>("ankle on foot", AnkleOnFoot{0.25, 0.06, 0.01, 0.0405, 0.005},
                           joined(heel, toe, ankle, stature));
  check_derivatives<2, 9>("small toe", SmallToeOnFoot{0.81, 0.06, 0.26, 0.07, 1},
                          joined(heel, toe, small_toe));
  check_derivatives<1, 9>("bends one way", BendsOneWay{-1, 0.02}, joined(hip, knee, ankle));
  check_derivatives<2, 6>("heels at origin", HeelsAtOrigin{}, joined(heel, ankle));
  check_derivatives<3, 6>("step near", StepNear{mean, sigma}, joined(hip, knee));
  check_derivatives<1, 6>("line open", LineOpen{-0.7, 0.3}, joined(shoulder, other_shoulder));
  check_derivatives<1, 9>("long arm", LongArm{0.98, 0.035}, joined(shoulder, hip, knee));
  check_derivatives<1, 24>(
      "trunk kept", TrunkKept{0.02},
      joined(hip, knee, shoulder, other_shoulder, ankle, heel, toe, small_toe));
}

TEST_CASE("automatic derivatives are those of differences: films") {
  const Vector3d around(0, 0.85, 0.2);
  check_derivatives<6, 7>(
      "camera placed", CameraPlaced{level, around, 0.1, 1.0, 0.28, 1.16, 0.25, 0.2, 0.02}, camera);
  check_derivatives<1, 7>("camera distance", CameraDistance{around, 1.16, 0.05}, camera);
  const Seen seen{level, {60, -220}, {7, 6}};
  check_derivatives<2, 10>("seen", seen, joined(shoulder, camera));
  check_derivatives<2, 14>("pulled shoulder", Pulled<Seen>{seen, 1},
                           joined(shoulder, other_shoulder, camera, std::array{0.19}));
  const InMotion<Seen> moving{seen, {900, -400}};
  check_derivatives<2, 11>("seen moving", moving, joined(shoulder, camera, std::array{0.004}));
  check_derivatives<2, 14>("seen moving again", InMotionAgain<Seen>{moving, seen, {0.6, 0.5}},
                           joined(shoulder, camera, std::array{0.004}, other_shoulder));
  check_derivatives<3, 10>("seen in space",
                           SeenInSpace{level, {0.1, -0.4, 0.05}, {0.08, 0.08, 0.12}},
                           joined(shoulder, std::array{0.1, -0.05, 0.02, 0.06, 0.02, 0.8, -0.1}));
  const SeenInSpace in_space{level, {0.1, -0.4, 0.05}, {0.08, 0.08, 0.12}};
  const std::array frame{0.1, -0.05, 0.02, 0.06, 0.02, 0.8, -0.1};
  check_derivatives<3, 14>("pulled in space", Pulled<SeenInSpace>{in_space, 0.5},
                           joined(shoulder, other_shoulder, frame, std::array{0.3}));
  const InMotion<SeenInSpace> moving_in_space{in_space, {2, -1, 3}};
  check_derivatives<3, 11>("moving in space", moving_in_space,
                           joined(shoulder, frame, std::array{0.004}));
  check_derivatives<3, 14>("moving in space again",
                           InMotionAgain<SeenInSpace>{moving_in_space, in_space, {0.6, 0.5, 0.7}},
                           joined(shoulder, frame, std::array{0.004}, other_shoulder));
  check_derivatives<4, 4>("frame placed", FramePlaced{{0.1, 0, 0}, {0.1, 0.2, 0.05}, 0, 0.02},
                          std::array{0.1, -0.05, 0.02, 0.06});
  check_derivatives<4, 11>("stick", StickSeen{level, {-200, 600}, {210, 590}, 4},
                           joined(std::array{-0.4, 0.5, 0.9, 0.95}, camera));
  check_derivatives<1, 4>("stick along target", StickAlongTarget{0.017},
                          std::array{-0.4, 0.5, 0.9, 0.95});
}

}  // namespace rangecheck::posture
