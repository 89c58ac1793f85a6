// What to mind at a station, beside the form where the work is recorded: what it is in a line, why and what to do when
// it is asked for.
#pragma once

#include "core/chemistry/hazards.h"
#include "ui/common/desk.h"
#include "ui/common/theme.h"

#include <QWidget>

class QLabel;
class QToolButton;

namespace washfast::ui {

/// The work that a station is for the cautions; empty where there is none.
[[nodiscard]] QString workAt(Station station);
/// Those for this station and the mixes of these prints; the one about the sun has the session's ultraviolet index.
[[nodiscard]] std::vector<chemistry::Caution> cautionsAt(
    const Notebook& notebook, Station station, const QVector<qint64>& prints, SessionId session);

class StationCautions : public QWidget {
    Q_OBJECT

public:
    explicit StationCautions(const Theme& theme, QWidget* parent = nullptr);

    void setCautions(const std::vector<chemistry::Caution>& cautions);
    [[nodiscard]] QToolButton* why() const { return why_; }
    [[nodiscard]] QString text() const;
    void setTheme(const Theme& theme);

private:
    void tell();

    QLabel* text_;
    QToolButton* why_;
    QStringList what_, all_;
};

} // namespace washfast::ui
