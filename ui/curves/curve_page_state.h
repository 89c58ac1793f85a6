// What the page "Characteristic curve" shows, worked out without a widget: the points of each print, the curve through
// them with what can be read from it, how the prints differ, and a sentence for whatever could not be used.
#pragma once

#include "core/density/pooled_curve.h"
#include "ui/curves/wedge_prints.h"

namespace washfast::ui::curves {

struct CurveAsk {
    CurveOf of {};
    QString when {}, channel {}; // choices of a reading; empty: a day after, else dry; red, else what was read most
    bool net = false; // densities above the bare paper
    std::optional<double> wanted {}; // density; empty: a round one just below the shoulder, else below the deepest step
};

/// One print with its steps.
struct CurvePrint {
    SteppedPrint print;
    density::WedgePoints steps;
    std::optional<density::CurveFit> alone; // through its steps only
    double shift = 0; // against the common curve, in log exposure
    std::optional<double> shift_error; // standard error; nothing when prints were not taken together
};

/// One line of figures.
struct Figure {
    QString name, value, interval, hint;
};

class CurvePageState {
public:
    static constexpr int mostPrints = 40; // the latest ones; more would be slow and tell nothing new

    CurvePageState(const PrintReader& reader, const CurveAsk& ask);
    /// The same curve with another density wanted, without working the curve out anew.
    [[nodiscard]] CurvePageState withWanted(double density) const;

    /// With the density that is wanted, if there is a curve.
    [[nodiscard]] const CurveAsk& ask() const { return ask_; }
    [[nodiscard]] const QString& title() const { return title_; }
    /// State and channel that were taken.
    [[nodiscard]] const QString& when() const { return when_; }
    [[nodiscard]] const QString& channel() const { return channel_; }
    [[nodiscard]] const std::vector<CurvePrint>& prints() const { return prints_; }
    /// The curve to read from; nothing when there is none, and sentences() say why.
    [[nodiscard]] const std::optional<density::CurveFit>& fit() const { return fit_; }
    [[nodiscard]] const std::optional<density::PooledCurve>& pooled() const { return pooled_; }
    [[nodiscard]] const std::optional<density::Drift>& drift() const { return drift_; }
    [[nodiscard]] std::optional<density::CurveTarget> target() const;
    /// Of the next print for the wanted density, log10; empty for one print.
    [[nodiscard]] density::Interval nextPrint() const;
    [[nodiscard]] std::vector<Figure> figures() const;
    /// What was left out, assumed or refused, and how the points are to be understood; the weightiest first.
    [[nodiscard]] const QStringList& sentences() const { return sentences_; }
    /// "red density a day after" for an axis.
    [[nodiscard]] const QString& densityLabel() const { return density_label_; }
    /// What the picture shows, for a screen reader.
    [[nodiscard]] QString inWords() const;

private:
    using Prints = std::vector<SteppedPrint>;
    [[nodiscard]] bool chooseReadings(const Notebook& notebook, const Prints& chosen);
    void takePoints(const PrintReader& reader, const Prints& chosen);
    void fitOne(const PrintReader& reader, const Prints& all);
    void fitTogether();
    void fitRegardless(const QString& why);
    void findTargets();
    void compose();
    void sayNotes();
    void sayDoses();
    [[nodiscard]] std::optional<double> slopeOfOthers(const PrintReader& reader, const Prints& all, int& prints) const;
    [[nodiscard]] std::vector<double> targets() const;
    [[nodiscard]] std::vector<density::PooledPoint> pooledPoints() const;
    [[nodiscard]] QString labelOfDensity(const Notebook& notebook) const;

    CurveAsk ask_;
    QString title_, when_, channel_, density_label_;
    std::vector<CurvePrint> prints_;
    std::optional<density::CurveFit> fit_;
    std::optional<density::PooledCurve> pooled_;
    std::optional<density::Drift> drift_;
    std::optional<density::CurveRequest> request_; // of the curve, where it is not of prints with shifts
    QStringList first_, last_; // sentences before and after what the curve itself says
    QStringList sentences_;
};

} // namespace washfast::ui::curves
