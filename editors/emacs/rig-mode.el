;;; rig-mode.el --- Major mode for the rig language  -*- lexical-binding: t -*-

;; SPDX-License-Identifier: MIT
;; Version: 0.1.0
;; Package-Requires: ((emacs "28.1"))
;; Keywords: languages

;;; Commentary:

;; Colours, indentation and comments for *.rig files, and the language server by way of eglot:
;;   (require 'rig-mode)
;;   (add-hook 'rig-mode-hook #'eglot-ensure)

;;; Code:

(require 'subr-x)

(defgroup rig nil
  "The rig language."
  :group 'languages
  :prefix "rig-")

(defcustom rig-server-command '("rig" "server")
  "The program of the language server and its arguments."
  :type '(repeat string))

(defconst rig-statement-keywords
  '("rig" "import" "gear" "lead" "device" "connect" "stock" "must" "never" "accept")
  "Words that open a statement.")

(defconst rig-line-keywords
  '("in" "out" "route" "switch" "join" "part" "track" "clock" "transport" "filters" "battery" "runs"
    "bus" "assign" "sound" "records")
  "Words that open a line of a block.")

(defconst rig-word-keywords
  '("on" "to" "at" "with" "from" "reach" "within" "receives" "sounds" "sends" "follows" "plays"
    "drops" "passes" "only" "maps" "channel" "layered" "up" "because" "like" "pairs" "coming" "going")
  "Words between names.")

(defconst rig-units
  '("V" "mV" "kV" "A" "mA" "W" "mW" "kW" "VA" "kVA" "m" "cm" "mm" "ft" "inch" "s" "ms" "min" "h"
    "Hz" "kHz" "bpm" "ppqn" "dBu" "dBV" "dB" "ohm" "kohm" "Wh" "Ah" "mAh" "bit" "awg")
  "Units of quantities.")

(defconst rig-colours
  '("black" "brown" "red" "orange" "yellow" "green" "blue" "violet" "grey" "white" "pink" "gold"
    "turquoise" "silver")
  "Colour words of cables, after IEC 60757.")

(defconst rig-signals
  '("midi" "pulse" "din-sync" "audio" "insert" "control" "dc" "ac" "mains" "usb")
  "Signals of ports.")

(defconst rig-details
  '("mono" "stereo" "mic" "instrument" "line" "headphone" "speaker" "balanced" "unbalanced"
    "impedance-balanced" "transformer-balanced" "phantom" "normalled" "isolated"
    "centre-positive" "centre-negative" "any-polarity" "positive-ground" "earthed" "double-insulated"
    "device" "host" "charger" "pitch" "gate" "trigger" "expression" "volt-per-octave" "hertz-per-volt" "wiper"
    "tip" "ring" "normally" "open" "closed" "inverted" "switch"
    "ts" "trs" "trrs" "xlr-3" "combo" "rca" "din-5" "barrel" "usb-a" "usb-b" "usb-c" "mini" "micro"
    "iec-c13" "iec-c14" "iec-c5" "iec-c6" "iec-c7" "iec-c8" "type-a" "type-b" "captive" "socket"
    "left" "right")
  "What is said of signals, and connectors.")

(defconst rig-messages
  '("notes" "velocity" "aftertouch" "controllers" "program change" "pitch bend" "system exclusive"
    "song position" "active sensing" "clock" "start" "stop" "continue" "transport" "audio" "power"
    "any")
  "What arrives, must not arrive or is dropped.")

(defvar rig-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?_ "w" table)
    (modify-syntax-entry ?- "w" table)
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?\\ "." table)
    (modify-syntax-entry ?+ "." table)
    (modify-syntax-entry ?. "." table)
    table)
  "Syntax of rig files: a hyphen inside a name belongs to it.")

(defun rig--words (words)
  "A pattern for WORDS that are not the port of a device, nor a device with a port."
  (concat "\\(?:^\\|[^.[:word:]]\\)" (regexp-opt words t) "\\_>\\(?:[^.]\\|\\.\\.\\|$\\)"))

(defun rig--within (opening words)
  "A font-lock matcher: WORDS on the rest of a line that OPENING matches."
  (lambda (limit)
    (let ((pattern (rig--words words)) (found nil))
      (while (and (not found) (re-search-forward pattern limit t))
        (goto-char (match-end 1))
        (let ((data (match-data)) (place (match-beginning 1)))
          (when (save-excursion
                  (beginning-of-line)
                  (re-search-forward opening place t))
            (set-match-data data)
            (setq found t))))
      found)))

(defconst rig-font-lock-keywords
  `((,(concat "^\\s-*" (regexp-opt '("device" "gear" "lead") t) "\\s-+\\(\"[^\"\n]*\"\\|[^][:space:]\n,:{}().\"]+\\)"
              "\\(?:\\s-*:\\s-*\\(\"[^\"\n]*\"\\|[^][:space:]\n,:{}().\"]+\\)\\)?")
     (1 font-lock-keyword-face) (2 font-lock-function-name-face t))
    ("^\\s-*device\\s-+\\(?:\"[^\"\n]*\"\\|[^][:space:]\n,:{}().\"]+\\)\\s-*:\\s-*\\(\"[^\"\n]*\"\\|[^][:space:]\n,:{}().\"]+\\)"
     (1 font-lock-type-face t))
    (,(concat "^\\s-*" (regexp-opt rig-statement-keywords t) "\\_>\\(?:[^.]\\|$\\)") (1 font-lock-keyword-face))
    ("^\\s-*\\(in\\|out\\)\\_>[^:\n]*:" (1 font-lock-keyword-face))
    (,(concat "^\\s-*" (regexp-opt (remove "in" (remove "out" rig-line-keywords)) t) "\\_>\\(?:[^.]\\|$\\)")
     (1 font-lock-keyword-face))
    ("\\_<\\(in\\)\\s-+\\(?:stereo\\|mono\\)\\_>" (1 font-lock-keyword-face))
    ("^\\s-*runs\\s-+on\\s-+\\(battery\\)\\_>" (1 font-lock-keyword-face))
    (,(rig--within "^\\s-*\\(?:\\(?:in\\|out\\)\\_>\\|lead\\_>\\)[^:\n]*:" rig-signals) (1 font-lock-type-face))
    (,(rig--within "^\\s-*\\(?:\\(?:in\\|out\\)\\_>\\|lead\\_>\\)[^:\n]*:" rig-details) (1 font-lock-constant-face))
    (,(rig--within "^\\s-*\\(?:must\\|never\\|filters\\)\\_>\\|\\_<\\(?:drops\\|passes\\)\\_>" rig-messages)
     (1 font-lock-constant-face))
    (,(rig--within "^\\s-*\\(?:connect\\_>\\|[0-9]\\)" rig-colours) (1 font-lock-constant-face))
    ("\\_<channel\\s-+\\(any\\|auto\\|off\\)\\_>" (1 font-lock-constant-face))
    ("\\_<\\(?:thru\\|local\\|phantom\\)\\s-+\\(on\\|off\\)\\_>" (1 font-lock-constant-face))
    (,(rig--within "^" rig-word-keywords) (1 font-lock-keyword-face))
    (,(concat "[0-9]\\s-*" (regexp-opt rig-units t) "\\_>") (1 font-lock-type-face))
    ("[[:word:]\"]\\.\\([[:alpha:]_][[:word:]]*\\)" (1 font-lock-variable-name-face)))
  "Colours of rig files.")

(defun rig-indent-line ()
  "Indent by two columns inside a block, and not at all outside."
  (interactive)
  (let ((depth (save-excursion (beginning-of-line) (car (syntax-ppss))))
        (column (- (current-column) (current-indentation))))
    (when (save-excursion (back-to-indentation) (eq (char-after) ?\}))
      (setq depth (1- depth)))
    (indent-line-to (* 2 (max 0 depth)))
    (when (> column 0)
      (move-to-column (+ column (current-indentation))))))

;;;###autoload
(define-derived-mode rig-mode prog-mode "Rig"
  "Major mode for rig files."
  (setq-local comment-start "// "
              comment-end ""
              comment-start-skip "//+\\s-*"
              indent-tabs-mode nil
              indent-line-function #'rig-indent-line
              imenu-generic-expression
              '(("Devices" "^device\\s-+\\([^[:space:]\n:{]+\\)" 1)
                ("Gear" "^gear\\s-+\\([^[:space:]\n:{]+\\)" 1)
                ("Leads" "^lead\\s-+\\([^[:space:]\n:{]+\\)" 1))
              font-lock-defaults '(rig-font-lock-keywords)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.rig\\'" . rig-mode))

;;; The language server

(defvar eglot-server-programs)
(declare-function eglot-current-server "eglot")
(declare-function eglot-execute-command "eglot")
(declare-function eglot--TextDocumentIdentifier "eglot")
(declare-function jsonrpc-request "jsonrpc")

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               (cons 'rig-mode (lambda (&rest _) rig-server-command))))

(defun rig--ask (title command &rest arguments)
  "Send COMMAND with the file and ARGUMENTS; show the answer under TITLE."
  (let ((server (and (fboundp 'eglot-current-server) (eglot-current-server))))
    (unless server
      (user-error "The rig server does not look after this buffer: M-x eglot starts it"))
    (let* ((uri (plist-get (eglot--TextDocumentIdentifier) :uri))
           (text (condition-case refusal
                     (jsonrpc-request server :workspace/executeCommand
                                      (list :command command :arguments (apply #'vector uri arguments)))
                   (jsonrpc-error
                    (user-error "%s" (or (alist-get 'jsonrpc-error-message (cddr refusal))
                                         (error-message-string refusal)))))))
      (with-current-buffer (get-buffer-create (format "*%s*" title))
        (let ((inhibit-read-only t))
          (erase-buffer)
          (insert (or text ""))
          (goto-char (point-min)))
        (special-mode)
        (display-buffer (current-buffer))
        (current-buffer)))))

;;;###autoload
(defun rig-trace (question)
  "Show the answer to QUESTION about messages in this rig.
For example \"clock from drums\", \"what reaches bass\" or
\"why not clock from drums to bass\"."
  (interactive "sTrace (for example: clock from drums): ")
  (when (string-blank-p question)
    (user-error "Ask something, for example: clock from drums"))
  (rig--ask (concat "rig trace: " question) "rig.trace" question))

;;;###autoload
(defun rig-channels ()
  "Show who sends and who hears on which MIDI channel."
  (interactive)
  (rig--ask "rig channels" "rig.channels"))

;;;###autoload
(defun rig-audio ()
  "Show where every sound ends up, and which mixer input is what."
  (interactive)
  (rig--ask "rig audio" "rig.audio"))

;;;###autoload
(defun rig-power ()
  "Show the power from the wall to every device: what each takes, and what is left."
  (interactive)
  (rig--ask "rig power" "rig.power"))

;;;###autoload
(defun rig-ground ()
  "Show the ground loops, which of them are heard, and the cheapest cure."
  (interactive)
  (rig--ask "rig ground" "rig.ground"))

;;;###autoload
(defun rig-hum (sound)
  "Show which ground loop to suspect of SOUND.
A \"hum\" is low and even, a \"buzz\" harsher and an octave up,
a \"whine\" high and changing."
  (interactive (list (completing-read "What is heard: " '("hum" "buzz" "whine") nil t)))
  (when (string-blank-p sound)
    (user-error "Say what is heard: hum, buzz or whine"))
  (rig--ask (concat "rig hum: " sound) "rig.hum" sound))

(provide 'rig-mode)
;;; rig-mode.el ends here
