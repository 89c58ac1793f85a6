// A tone pair as a widget, with its words as tool tip and for a screen reader.
#pragma once

#include "ui/common/print_tone.h"
#include "ui/common/theme.h"

#include <QWidget>

namespace washfast::ui {

class ToneBox : public QWidget {
    Q_OBJECT

public:
    explicit ToneBox(const Theme& theme, QWidget* parent = nullptr);
    void setTones(const PrintTones& tones);
    void setTheme(const Theme& theme);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Theme theme_;
    PrintTones tones_;
};

} // namespace washfast::ui
