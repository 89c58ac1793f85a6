// What was recorded for a print at one station: a heading with its times, the known values with their evidence, and the
// station's form when it is being edited.
#pragma once

#include "ui/common/view.h"

class QLabel;
class QPushButton;

namespace washfast::ui {

class PrintForm;

class StationSection : public QWidget {
    Q_OBJECT

public:
    StationSection(const Services& services, Station station, QWidget* parent = nullptr);

    void setPrint(qint64 print);
    void setTheme(const Theme& theme);
    [[nodiscard]] Station station() const { return station_; }
    /// The earliest time recorded here, if any.
    [[nodiscard]] std::optional<Instant> begins() const { return begins_; }
    [[nodiscard]] QString shownText() const;
    /// Puts its button and its form behind `before` in the order of Tab; gives the last control.
    QWidget* orderAfter(QWidget* before) const;
    [[nodiscard]] QPushButton* editButton() const { return edit_; }
    /// nullptr until it has been edited once.
    [[nodiscard]] PrintForm* form() const { return form_; }

public Q_SLOTS:
    void refresh();

private:
    void edit(bool on);
    [[nodiscard]] QString rowText(const Field& field, const Known& known) const;
    [[nodiscard]] QString headingText() const;

    Services services_;
    Station station_;
    qint64 print_ = 0;
    std::optional<Instant> begins_;
    std::optional<Instant> ends_;
    QLabel* heading_ = nullptr;
    QLabel* values_ = nullptr;
    QPushButton* edit_ = nullptr;
    PrintForm* form_ = nullptr; // made when it is first needed
};

} // namespace washfast::ui
