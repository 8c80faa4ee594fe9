#!/usr/bin/env node
import '../dist/quarrel.js';
