// The form at the right of the Bench: what can be recorded at one station, for one or many prints.
#pragma once

#include "ui/common/print_form.h"

#include <QWidget>

class QLabel;
class QToolButton;

namespace washfast::ui {

class StationCautions;

class FormPanel : public QWidget {
    Q_OBJECT

public:
    FormPanel(Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    /// `whom` names the prints for the heading: a code, or "12 prints".
    void show(Station station, const QVector<qint64>& prints, const QString& whom);
    /// Puts the focus on the first field that is not a time: those are set by Space.
    void focusFirst();
    [[nodiscard]] PrintForm* form() const { return form_; }
    [[nodiscard]] StationCautions* cautions() const { return cautions_; }
    [[nodiscard]] Station station() const { return station_; }
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void left(); // back to the table, the panel stays
    void closed();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    Desk& desk_;
    Station station_ = Station::About;
    bool built_ = false;
    QLabel* heading_;
    QLabel* hint_;
    QToolButton* close_;
    StationCautions* cautions_;
    PrintForm* form_;
};

} // namespace washfast::ui
