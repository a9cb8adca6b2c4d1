;;; test.el --- Emacs with editors/emacs/rig-mode.el and eglot, against a real server  -*- lexical-binding: t -*-

;; RIG, EXAMPLES and EDITORS as in nvim/test.lua; prints the same kind of lines.

(require 'package)
(package-initialize)
(require 'cl-lib)
(require 'eglot)
(require 'flymake)
(add-to-list 'load-path (expand-file-name "emacs" (getenv "EDITORS")))
(require 'rig-mode)

(setq make-backup-files nil auto-save-default nil create-lockfiles nil enable-local-variables nil
      eglot-sync-connect 20 eglot-confirm-server-initiated-edits nil
      eglot-send-changes-idle-time 0.05 flymake-no-changes-timeout 0.05
      rig-server-command (list (getenv "RIG") "server"))

(defvar test-failed nil)
(defvar test-examples (file-name-as-directory (getenv "EXAMPLES")))
(defvar test-patience 20)

(add-hook 'project-find-functions (lambda (_) (cons 'transient test-examples)))

(defun test-eventually (holds)
  "Wait until HOLDS gives something, and give that."
  (let ((end (+ (float-time) test-patience)) (answer nil))
    (while (and (not (setq answer (funcall holds))) (< (float-time) end))
      (accept-process-output nil 0.02))
    answer))

(defmacro test (what &rest body)
  "Report whether BODY gives something, as WHAT."
  (declare (indent 1))
  `(let* ((problem nil)
          (holds (condition-case error (progn ,@body) (error (setq problem error) nil))))
     (princ (format "%s - emacs: %s\n" (if holds "ok" "not ok") ,what))
     (unless holds
       (setq test-failed t)
       (princ (format "  error: %S\n  findings: %S\n  line: %s\n" problem (ignore-errors (test-findings))
                      (buffer-substring (line-beginning-position) (line-end-position)))))))

(defvar test-published nil "The files that the server has sent findings of, or their absence.")
(cl-defmethod eglot-handle-notification :before
  (_server (_method (eql textDocument/publishDiagnostics)) &key uri &allow-other-keys)
  (cl-pushnew (file-truename (eglot--uri-to-path uri)) test-published :test #'string=))

(defun test-findings ()
  "The findings of this buffer: (LINE . CHECK), in order."
  (flymake-start nil)
  (sort (mapcar (lambda (d)
                  (cons (line-number-at-pos (flymake-diagnostic-beg d))
                        (let ((code (plist-get (alist-get 'eglot-lsp-diag (flymake-diagnostic-data d)) :code)))
                          (or code (flymake-diagnostic-text d)))))
                (flymake-diagnostics))
        (lambda (a b) (or (< (car a) (car b)) (and (= (car a) (car b)) (string< (cdr a) (cdr b)))))))

(defun test-finds (check)
  (cl-find check (test-findings) :key #'cdr :test #'string=))

(defun test-expected ()
  "What the comments of the file say: which line has which mistake."
  (save-excursion
    (goto-char (point-min))
    (cl-loop while (re-search-forward "// mistake: \\([a-z-]+\\)" nil t)
             collect (cons (line-number-at-pos) (match-string-no-properties 1)))))

(defun test-open (file)
  (find-file (expand-file-name file test-examples))
  (unless (eglot-current-server)
    (apply #'eglot (eglot--guess-contact)))
  (unless (eglot-managed-p)
    (eglot--maybe-activate-editing-mode)))

(defun test-go (pattern)
  (goto-char (point-min))
  (re-search-forward pattern)
  (goto-char (match-beginning 0)))

(defun test-told ()
  "Send what was typed, as eglot does after a moment of rest."
  (eglot--signal-textDocument/didChange))

(test-open "mistakes/pantile-yard.rig")
(test "*.rig opens in rig-mode, and eglot knows its server"
  (and (eq major-mode 'rig-mode) (eglot-current-server)))
(test "the file with mistakes shows every one at its line, and nothing else"
  (let ((want (test-expected)))
    (and (> (length want) 40)
         (test-eventually (lambda () (equal (test-findings) want))))))
(test "a fix swaps the ends of a connection, and its finding goes"
  (test-go "^connect desk\\.line4")
  (let* ((actions (eglot-code-actions (line-beginning-position) (line-end-position) "quickfix"))
         (action (elt actions 0)))
    (eglot--apply-workspace-edit (plist-get action :edit))
    (test-told)
    (goto-char (point-min))
    (and (re-search-forward "^connect drums\\.kick +to desk\\.line4" nil t)
         (test-eventually (lambda () (not (test-finds "ends-swapped")))))))

(test-open "pantile-yard.rig")
(test "the sound rig has no finding"
  (and (test-eventually (lambda () (member (file-truename buffer-file-name) test-published)))
       (null (test-findings))))
(test "hovering a connection speaks of it"
  (test-go "^connect seq\\.midi")
  (let ((hover (jsonrpc-request (eglot-current-server) :textDocument/hover (eglot--TextDocumentPositionParams))))
    (string-match-p "seq\\.midi" (eglot--hover-info (plist-get hover :contents) (plist-get hover :range)))))
(test "after connect, the devices are offered"
  (goto-char (point-max))
  (insert "connect ")
  (test-told)
  (let ((labels (mapcar #'substring-no-properties (all-completions "" (nth 2 (eglot-completion-at-point))))))
    (and (cl-some (lambda (label) (string-prefix-p "seq" label)) labels)
         (cl-some (lambda (label) (string-prefix-p "drums" label)) labels))))
(test "a mistake while typing shows, and goes when it is undone"
  (let ((start (line-beginning-position)))
    (insert "seq.midi to nobody.midi")
    (test-told)
    (and (test-eventually (lambda () (test-finds "unknown-name")))
         (progn (delete-region start (point-max))
                (test-told)
                (test-eventually (lambda () (null (test-findings))))))))
(test "renaming a device renames it everywhere"
  (test-go "seq : Brindock")
  (eglot-rename "sequencer")
  (test-told)
  (goto-char (point-min))
  (and (not (re-search-forward "^connect seq\\." nil t))
       (re-search-forward "^connect sequencer\\.midi" nil t)
       (progn (setq test-published nil)
              (test-eventually (lambda () (member (file-truename buffer-file-name) test-published)))
              (null (test-findings)))))
(test "formatting puts crooked lines into columns, and back"
  (eglot-format-buffer)
  (let ((straight (buffer-string)))
    (test-go "^connect sequencer\\.midi")
    (search-forward " to ")
    (replace-match "    to ")
    (test-told)
    (and (not (string= straight (buffer-string)))
         (progn (eglot-format-buffer)
                (string= straight (buffer-string))))))
(test "M-x rig-trace answers in a buffer that cannot be edited"
  (with-current-buffer (rig-trace "clock from sequencer")
    (and buffer-read-only (string-match-p "bass" (buffer-string)))))
(test "M-x rig-channels answers"
  (with-current-buffer (rig-channels)
    (string-match-p "drums" (buffer-string))))
(test "M-x rig-audio answers"
  (with-current-buffer (rig-audio)
    (string-match-p "What arrives where" (buffer-string))))
(test "M-x rig-power answers"
  (with-current-buffer (rig-power)
    (and (string-match-p "Power of" (buffer-string))
         (string-match-p "Never remove or lift a protective earth" (buffer-string)))))
(test "M-x rig-ground answers"
  (with-current-buffer (rig-ground)
    (string-match-p "ground domain" (buffer-string))))
(test "M-x rig-hum asks for one of three sounds, and answers"
  (let (offered)
    (cl-letf (((symbol-function 'completing-read)
               (lambda (_ sounds &rest _) (setq offered sounds) "whine")))
      (with-current-buffer (call-interactively #'rig-hum)
        (and (equal offered '("hum" "buzz" "whine"))
             (equal (buffer-name) "*rig hum: whine*")
             (string-match-p "protective earth" (buffer-string)))))))
(test "a sound that there is not is refused, with those that there are"
  (condition-case error (progn (rig-hum "hiss") nil)
    (user-error (string-match-p "\\`rig\\.hum .*\"hiss\".*hum, buzz, whine\\.\\'" (cadr error)))))
(test "a blank question is not sent"
  (condition-case error (progn (rig-trace " ") nil)
    (user-error (string-match-p "for example" (cadr error)))))
(test "a block is indented, and its end is not"
  (with-temp-buffer
    (rig-mode)
    (insert "device a : B {\nclock midi // {\n}\nconnect a.b to c.d\n")
    (indent-region (point-min) (point-max))
    (string= (buffer-string) "device a : B {\n  clock midi // {\n}\nconnect a.b to c.d\n")))

(defun test-face (text word)
  "The colour of the first WORD in TEXT."
  (with-temp-buffer
    (rig-mode)
    (insert text)
    (font-lock-ensure)
    (goto-char (point-min))
    (search-forward word)
    (get-text-property (1- (point)) 'face)))

(test "a device may be called like a keyword"
  (and (eq (test-face "device in : Plover" "in") 'font-lock-function-name-face)
       (eq (test-face "connect a.in to b.out" "in") 'font-lock-variable-name-face)
       (eq (test-face "connect to.x to b.y" "to") nil)))
(test "keywords that follow one another are coloured, each"
  (and (eq (test-face "  part a receives midi on channel 2" "on") 'font-lock-keyword-face)
       (eq (test-face "  part a receives midi on channel 2" "channel") 'font-lock-keyword-face)))
(test "a declaration ends with its line"
  (eq (test-face "device b : Plover\n\nconnect a.b to c.d" "connect") 'font-lock-keyword-face))
(test "units, colours, signals and messages are coloured where they mean something"
  (and (eq (test-face "  tempo 112 bpm" "bpm") 'font-lock-type-face)
       (eq (test-face "connect a.b to c.d with Patch 1 m red" "red") 'font-lock-constant-face)
       (eq (test-face "  in midi : midi on din-5" ": midi") 'font-lock-type-face)
       (eq (test-face "must clock from a reach b" "clock") 'font-lock-constant-face)
       (eq (test-face "  clock midi" "midi") nil)))

(dolist (buffer (buffer-list))
  (with-current-buffer buffer (set-buffer-modified-p nil)))
(test-open "pantile-yard.rig")
(ignore-errors (eglot-shutdown (eglot-current-server) nil 3))
(kill-emacs (if test-failed 1 0))
