#include "core/density/registration.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace washfast::density {

namespace {

constexpr double slowReach = 10; // mm
// Each has 95 % efficiency for normal errors (textbook values, from memory).
constexpr double huber = 1.345, biweight = 4.685;
constexpr int coarseSide = 80; // pixels of the longer side in the coarse search
constexpr int leastSide = 24;

using Map = Eigen::Matrix3d; // in units of half the longer side, about the middle of the first picture

struct Frame {
    double cx = 0, cy = 0, half = 1;
    explicit Frame(const SheetPicture& picture)
        : cx(picture.width / 2.0)
        , cy(picture.height / 2.0)
        , half(std::max(picture.width, picture.height) / 2.0)
    {
    }
    [[nodiscard]] Point in(Point at) const { return { (at.x - cx) / half, (at.y - cy) / half }; }
    [[nodiscard]] Point out(Point at) const { return { at.x * half + cx, at.y * half + cy }; }
};

Point through(const Map& map, Point at)
{
    const Eigen::Vector3d to = map * Eigen::Vector3d(at.x, at.y, 1);
    return { to.x() / to.z(), to.y() / to.z() };
}

/// A picture with its slopes, at one level of coarseness. Near the border slow changes cannot be taken off in the same
/// way as elsewhere, so it is left out.
struct Level {
    SheetPicture picture, slope_x, slope_y;
    int margin;
    explicit Level(SheetPicture of)
        : picture(std::move(of))
        , slope_x(picture)
        , slope_y(picture)
        , margin(
              std::min(int(std::ceil(slowReach / picture.mm_per_pixel)), std::min(picture.width, picture.height) / 8))
    {
        for (int y = 0; y < picture.height; ++y)
            for (int x = 0; x < picture.width; ++x) {
                const int l = std::max(0, x - 1), r = std::min(picture.width - 1, x + 1);
                const int t = std::max(0, y - 1), b = std::min(picture.height - 1, y + 1);
                slope_x.at(x, y) = (picture.at(r, y) - picture.at(l, y)) / std::max(1, r - l);
                slope_y.at(x, y) = (picture.at(x, b) - picture.at(x, t)) / std::max(1, b - t);
            }
    }
    [[nodiscard]] bool inside(Point at) const
    {
        return at.x >= margin && at.y >= margin && at.x <= picture.width - margin && at.y <= picture.height - margin;
    }
};

/// The mean with the neighbours, twice by 1 2 1: what is finer than a pixel can tell would pull the fit about.
SheetPicture softened(SheetPicture picture)
{
    for (int round = 0; round < 2; ++round)
        for (const bool across : { true, false }) {
            const auto from = picture;
            for (int y = 0; y < picture.height; ++y)
                for (int x = 0; x < picture.width; ++x) {
                    const auto at = [&](int d) {
                        return across ? from.at(std::clamp(x + d, 0, from.width - 1), y)
                                      : from.at(x, std::clamp(y + d, 0, from.height - 1));
                    };
                    picture.at(x, y) = (at(-1) + 2 * at(0) + at(1)) / 4;
                }
        }
    return picture;
}

/// Straight line between four pixels; quick, for slopes and the coarse search.
std::optional<double> bilinear(const SheetPicture& picture, Point at)
{
    const double x = at.x - 0.5, y = at.y - 0.5;
    if (x < 0 || y < 0 || x > picture.width - 1 || y > picture.height - 1)
        return {};
    const int i = std::min(int(x), picture.width - 2), j = std::min(int(y), picture.height - 2);
    const double u = x - i, v = y - j;
    return (1 - v) * ((1 - u) * picture.at(i, j) + u * picture.at(i + 1, j))
        + v * ((1 - u) * picture.at(i, j + 1) + u * picture.at(i + 1, j + 1));
}

struct Alike {
    double correlation = -1;
    double covered = 0; // share of the first picture
};

Alike alikeUnder(const Map& map, const Level& one, const Level& other, int step)
{
    const auto &first = one.picture, &second = other.picture;
    const Frame here(first), there(second);
    double n = 0, a = 0, b = 0, aa = 0, bb = 0, ab = 0, all = 0;
    for (int y = one.margin; y < first.height - one.margin; y += step)
        for (int x = one.margin; x < first.width - one.margin; x += step) {
            all += 1;
            const auto to = through(map, here.in({ x + 0.5, y + 0.5 }));
            const Point at { to.x * here.half + there.cx, to.y * here.half + there.cy };
            const auto value = bilinear(second, at);
            if (!value || !other.inside(at))
                continue;
            const double own = first.at(x, y);
            n += 1;
            a += own;
            b += *value;
            aa += own * own;
            bb += *value * *value;
            ab += own * *value;
        }
    if (n < 100)
        return {};
    const double va = aa - a * a / n, vb = bb - b * b / n;
    return { va > 0 && vb > 0 ? (ab - a * b / n) / std::sqrt(va * vb) : -1, n / all };
}

Map coarsely(const Level& one, const Level& other)
{
    const auto& first = one.picture;
    Map best = Map::Identity();
    double most = -2;
    const double unit = 2.0 / std::max(first.width, first.height);
    const int reach = std::max(2, std::max(first.width, first.height) / 8);
    const auto look = [&](double degrees, double dx, double dy, int step) {
        const double c = std::cos(degrees * std::numbers::pi / 180), s = std::sin(degrees * std::numbers::pi / 180);
        Map map;
        map << c, -s, dx * unit, s, c, dy * unit, 0, 0, 1;
        const auto alike = alikeUnder(map, one, other, step);
        if (alike.covered > 0.5 && alike.correlation > most) {
            most = alike.correlation;
            best = map;
        }
    };
    for (const double degrees : { 0.0, -2.0, 2.0, -4.0, 4.0 })
        for (int dy = -reach; dy <= reach; ++dy)
            for (int dx = -reach; dx <= reach; ++dx)
                look(degrees, dx, dy, 2);
    return best;
}

/// Pixels that miss far weigh little; once the rest lies well (`firm`), nothing at all.
double weightOf(double miss, bool firm)
{
    if (!firm)
        return std::min(1.0, huber / std::max(1e-12, std::abs(miss)));
    const double part = miss / biweight;
    return std::abs(part) < 1 ? (1 - part * part) * (1 - part * part) : 0;
}

/// One fit of `terms` parameters (4: shift, turn and scale; 8: slant as well) by Gauss-Newton from `map`. Gives the
/// mean weighted square that is left, or nothing when it does not settle.
std::optional<double> fit(Map& map, const Level& first, const Level& second, int terms, bool firm, const Watch& watch)
{
    const Frame here(first.picture), there(second.picture);
    const int step = std::max(first.picture.width, first.picture.height) > 250 ? 2 : 1;
    double scale = 0, left = 0;
    std::vector<double> sizes;
    for (int round = 0; round < 25; ++round) {
        if (watch.cancelled())
            return {};
        const int columns = terms + 2; // and contrast and brightness
        Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(columns, columns);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(columns);
        double weights = 0, squares = 0, count = 0, all = 0;
        static thread_local std::vector<std::pair<double, Eigen::Matrix<double, 10, 1>>> rows;
        rows.clear();
        double a = 0, b = 0, bb = 0, ab = 0;
        for (int y = first.margin; y < first.picture.height - first.margin; y += step)
            for (int x = first.margin; x < first.picture.width - first.margin; x += step) {
                all += 1;
                const auto own = here.in({ x + 0.5, y + 0.5 });
                const double w = map(2, 0) * own.x + map(2, 1) * own.y + 1;
                const auto to = through(map, own);
                const Point at { to.x * here.half + there.cx, to.y * here.half + there.cy };
                const auto value = between(second.picture, at);
                const auto gx = bilinear(second.slope_x, at), gy = bilinear(second.slope_y, at);
                if (!value || !gx || !gy || !second.inside(at))
                    continue;
                const double px = *gx * here.half / w, py = *gy * here.half / w;
                Eigen::Matrix<double, 10, 1> row = Eigen::Matrix<double, 10, 1>::Zero();
                if (terms == 4) { // a: scale, b: turn, shifts
                    row[0] = px * own.x + py * own.y;
                    row[1] = -px * own.y + py * own.x;
                    row[2] = px;
                    row[3] = py;
                } else {
                    const double slant = px * to.x + py * to.y;
                    row.head<8>() << px * own.x, px * own.y, px, py * own.x, py * own.y, py, -slant * own.x,
                        -slant * own.y;
                }
                row[terms] = *value;
                row[terms + 1] = 1;
                const double target = first.picture.at(x, y);
                rows.emplace_back(target, row);
                a += target;
                b += *value;
                bb += *value * *value;
                ab += target * *value;
                count += 1;
            }
        if (count < 100 || count < all / 3)
            return {};
        // Contrast and brightness as they stand, then the residuals and their weights.
        const double spread = bb - b * b / count;
        const double contrast = spread > 0 ? std::max(0.05, (ab - a * b / count) / spread) : 1;
        const double brightness = (a - contrast * b) / count;
        sizes.clear();
        for (const auto& [target, row] : rows)
            sizes.push_back(std::abs(target - contrast * row[terms] - brightness));
        std::nth_element(sizes.begin(), sizes.begin() + std::ssize(sizes) / 2, sizes.end());
        scale = std::max(1e-6, 1.4826 * sizes[sizes.size() / 2]);
        for (const auto& [target, whole] : rows) {
            Eigen::VectorXd row = whole.head(columns);
            row.head(terms) *= contrast;
            const double miss = target - contrast * whole[terms] - brightness;
            const double weight = weightOf(miss / scale, firm);
            normal.selfadjointView<Eigen::Lower>().rankUpdate(row, weight);
            right += weight * miss * row;
            weights += weight;
            squares += weight * miss * miss;
        }
        left = squares / weights;
        normal = normal.selfadjointView<Eigen::Lower>();
        for (int i = 0; i < columns; ++i)
            normal(i, i) *= 1 + 1e-9;
        const Eigen::VectorXd change = normal.ldlt().solve(right);
        if (!change.allFinite())
            return {};
        if (terms == 4) {
            map(0, 0) += change[0];
            map(1, 1) += change[0];
            map(0, 1) -= change[1];
            map(1, 0) += change[1];
            map(0, 2) += change[2];
            map(1, 2) += change[3];
        } else {
            map(0, 0) += change[0];
            map(0, 1) += change[1];
            map(0, 2) += change[2];
            map(1, 0) += change[3];
            map(1, 1) += change[4];
            map(1, 2) += change[5];
            map(2, 0) += change[6];
            map(2, 1) += change[7];
        }
        if (change.head(terms).cwiseAbs().maxCoeff() * here.half < 1e-3)
            break;
    }
    const double grown = std::sqrt(std::abs(map.topLeftCorner<2, 2>().determinant()));
    if (grown < 0.8 || grown > 1.25 || std::abs(map(2, 0)) > 0.2 || std::abs(map(2, 1)) > 0.2)
        return {};
    return left;
}

} // namespace

std::optional<double> between(const SheetPicture& picture, Point at)
{
    const double x = at.x - 0.5, y = at.y - 0.5;
    if (!(x >= 0 && y >= 0 && x <= picture.width - 1 && y <= picture.height - 1))
        return {};
    const int i = int(x), j = int(y);
    const auto weights = [](double t) {
        return std::array<double, 4> { ((-0.5 * t + 1) * t - 0.5) * t, (1.5 * t - 2.5) * t * t + 1,
            ((-1.5 * t + 2) * t + 0.5) * t, (0.5 * t - 0.5) * t * t };
    };
    const auto across = weights(x - i), down = weights(y - j);
    double sum = 0;
    for (int v = 0; v < 4; ++v) {
        const int row = std::clamp(j + v - 1, 0, picture.height - 1);
        double line = 0;
        for (int u = 0; u < 4; ++u)
            line += across[size_t(u)] * picture.at(std::clamp(i + u - 1, 0, picture.width - 1), row);
        sum += down[size_t(v)] * line;
    }
    return sum;
}

Point Registration::toSecond(Point first) const
{
    const double w = map[6] * first.x + map[7] * first.y + map[8];
    return { (map[0] * first.x + map[1] * first.y + map[2]) / w, (map[3] * first.x + map[4] * first.y + map[5]) / w };
}

SheetPicture Registration::resampled(const SheetPicture& second, const SheetPicture& first) const
{
    SheetPicture out = first;
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x)
            out.at(x, y)
                = between(second, toSecond({ x + 0.5, y + 0.5 })).value_or(std::numeric_limits<double>::quiet_NaN());
    return out;
}

Registration Registration::shifted(double dx, double dy)
{
    Registration out;
    out.map[2] = dx;
    out.map[5] = dy;
    return out;
}

std::optional<Registration> registerPictures(const SheetPicture& first, const SheetPicture& second, const Watch& watch)
{
    const int longest = std::max(first.width, first.height);
    if (std::min({ first.width, first.height, second.width, second.height }) < leastSide)
        return {};
    const auto a = first.withoutSlow(slowReach), b = second.withoutSlow(slowReach);
    const int coarse = std::max(1, longest / coarseSide);
    Map map = coarsely(Level(a.coarser(coarse)), Level(b.coarser(coarse)));
    watch.tell(0.3);
    std::vector<int> sides { coarse, std::max(1, coarse / 2), 1 };
    sides.erase(std::unique(sides.begin(), sides.end()), sides.end());
    double told = 0.3;
    std::optional<Level> last_a, last_b;
    for (const int side : sides) {
        if (watch.cancelled())
            return {};
        last_a.emplace(softened(a.coarser(side)));
        last_b.emplace(softened(b.coarser(side)));
        Map tried = map;
        if (fit(tried, *last_a, *last_b, 4, false, watch))
            map = tried;
        else if (watch.cancelled())
            return {};
        watch.tell(told += 0.15);
    }
    // Corners marked by hand leave a slant as well; it is kept when it makes the details more alike.
    Map slanted = map;
    auto alike = alikeUnder(map, *last_a, *last_b, 1);
    if (alike.correlation >= leastAlike && fit(slanted, *last_a, *last_b, 8, false, watch)
        && fit(slanted, *last_a, *last_b, 8, true, watch)) {
        const auto better = alikeUnder(slanted, *last_a, *last_b, 1);
        if (better.correlation > alike.correlation + 0.002 && better.covered > 0.5) {
            alike = better;
            map = slanted;
        }
    }
    watch.tell(1);
    if (watch.cancelled() || alike.correlation < leastAlike || alike.covered < 0.5)
        return {};
    const Frame here(first), there(second);
    Map in, out;
    in << 1 / here.half, 0, -here.cx / here.half, 0, 1 / here.half, -here.cy / here.half, 0, 0, 1;
    out << here.half, 0, there.cx, 0, here.half, there.cy, 0, 0, 1;
    const Map pixels = out * map * in;
    Registration registration;
    registration.alike = alike.correlation;
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
            registration.map[size_t(3 * i + j)] = pixels(i, j);
    return registration;
}

} // namespace washfast::density
