// @ts-nocheck
// Generated from result.schema.json by `npm run types`; do not edit.
// The array of results that --json prints: where it breaks the schema.
import type { SchemaFault } from '../target/schema-fault.ts';

const validate = validate10, schema11 = { $schema: "http://json-schema.org/draft-07/schema#", type: "array", items: { $ref: "#/definitions/result" }, definitions: { result: { type: "object", required: ["format", "version", "source", "target", "effort", "seed", "stop", "asWritten", "fastest", "points", "notices"], additionalProperties: !1, properties: { format: { const: "tickwright.result/1" }, version: { type: "string" }, source: { type: "string" }, target: { type: "string" }, join: { enum: ["or", "and"] }, effort: { enum: ["quick", "normal", "deep"] }, seed: { type: "integer", minimum: 0 }, stop: { type: "string" }, asWritten: { type: ["object", "null"], required: ["ticks", "parts"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 } } }, fastest: { type: ["object", "null"], required: ["ticks", "proved", "parts"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, proved: { type: "boolean" }, parts: { type: ["integer", "null"], minimum: 0 } } }, chosen: { type: "integer", minimum: 0 }, sharing: { type: "object", required: ["way", "groups", "alone", "together"], additionalProperties: !1, properties: { way: { enum: ["together", "grouped", "alone"] }, groups: { type: "array", items: { type: "object", required: ["ticks", "parts", "outputs"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 }, outputs: { type: "array", items: { type: "string" } } } } }, alone: { type: ["integer", "null"], minimum: 0 }, grouped: { type: ["integer", "null"], minimum: 0 }, together: { type: ["integer", "null"], minimum: 0 } } }, points: { type: "array", items: { $ref: "#/definitions/point" } }, notices: { type: "array", items: { $ref: "#/definitions/notice" } } } }, point: { type: "object", required: ["ticks", "parts", "copies", "legs", "ticksProved", "partsProved", "network", "proof", "rails"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 }, copies: { type: "integer", minimum: 0 }, legs: { type: "integer", minimum: 0 }, ticksProved: { type: "boolean" }, partsProved: { type: "boolean" }, provedApart: { type: "integer", minimum: 2 }, network: { $ref: "#/definitions/network" }, proof: { $ref: "#/definitions/proof" }, rails: { type: "array", items: { $ref: "#/definitions/signalRail" } } } }, network: { type: "object", required: ["inputs", "inverters", "outputs"], additionalProperties: !1, properties: { inputs: { type: "array", items: { type: "object", required: ["name", "rail", "wire", "tick"], additionalProperties: !1, properties: { name: { type: "string" }, rail: { $ref: "#/definitions/wireRail" }, wire: { type: "string" }, tick: { type: "integer", minimum: 0 }, separate: { $ref: "#/definitions/separate" } } } }, inverters: { type: "array", items: { type: "object", required: ["wire", "legs", "tick"], additionalProperties: !1, properties: { wire: { type: "string" }, legs: { $ref: "#/definitions/legs" }, tick: { type: "integer", minimum: 0 }, separate: { $ref: "#/definitions/separate" }, copyOf: { type: "string" }, meaning: { type: "string" } } } }, outputs: { type: "array", items: { type: "object", required: ["name", "rail", "legs", "tick"], additionalProperties: !1, properties: { name: { type: "string" }, rail: { $ref: "#/definitions/wireRail" }, legs: { $ref: "#/definitions/legs" }, tick: { type: "integer", minimum: 0 }, meaning: { type: "string" } } } } } }, legs: { type: "array", minItems: 1, items: { type: "string" } }, wireRail: { enum: ["high", "low"] }, proof: { type: "object", required: ["verdict", "method"], additionalProperties: !1, properties: { verdict: { enum: ["equal", "different", "undecided"] }, method: { enum: ["patterns", "solver"] }, patterns: { type: "number", minimum: 0 }, counterexample: { type: "object", additionalProperties: { enum: [0, 1] } } } }, separate: { type: "integer", minimum: 2 }, signalRail: { type: "object", required: ["signal", "rail", "wires", "tick"], additionalProperties: !1, properties: { signal: { type: "string" }, rail: { enum: ["high", "low", "both", "absorbed", "split"] }, wires: { type: "array", items: { type: "string" } }, lowWires: { type: "array", items: { type: "string" } }, tick: { type: ["integer", "null"], minimum: 0 } } }, notice: { type: "object", required: ["severity", "code", "message", "line", "column"], additionalProperties: !1, properties: { severity: { enum: ["error", "warning", "notice"] }, code: { type: "string" }, message: { type: "string" }, hint: { type: "string" }, line: { type: ["integer", "null"], minimum: 1 }, column: { type: ["integer", "null"], minimum: 1 } } } } }, schema12 = { type: "object", required: ["format", "version", "source", "target", "effort", "seed", "stop", "asWritten", "fastest", "points", "notices"], additionalProperties: !1, properties: { format: { const: "tickwright.result/1" }, version: { type: "string" }, source: { type: "string" }, target: { type: "string" }, join: { enum: ["or", "and"] }, effort: { enum: ["quick", "normal", "deep"] }, seed: { type: "integer", minimum: 0 }, stop: { type: "string" }, asWritten: { type: ["object", "null"], required: ["ticks", "parts"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 } } }, fastest: { type: ["object", "null"], required: ["ticks", "proved", "parts"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, proved: { type: "boolean" }, parts: { type: ["integer", "null"], minimum: 0 } } }, chosen: { type: "integer", minimum: 0 }, sharing: { type: "object", required: ["way", "groups", "alone", "together"], additionalProperties: !1, properties: { way: { enum: ["together", "grouped", "alone"] }, groups: { type: "array", items: { type: "object", required: ["ticks", "parts", "outputs"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 }, outputs: { type: "array", items: { type: "string" } } } } }, alone: { type: ["integer", "null"], minimum: 0 }, grouped: { type: ["integer", "null"], minimum: 0 }, together: { type: ["integer", "null"], minimum: 0 } } }, points: { type: "array", items: { $ref: "#/definitions/point" } }, notices: { type: "array", items: { $ref: "#/definitions/notice" } } } }, schema23 = { type: "object", required: ["severity", "code", "message", "line", "column"], additionalProperties: !1, properties: { severity: { enum: ["error", "warning", "notice"] }, code: { type: "string" }, message: { type: "string" }, hint: { type: "string" }, line: { type: ["integer", "null"], minimum: 1 }, column: { type: ["integer", "null"], minimum: 1 } } }, func2 = Object.prototype.hasOwnProperty, schema13 = { type: "object", required: ["ticks", "parts", "copies", "legs", "ticksProved", "partsProved", "network", "proof", "rails"], additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 0 }, parts: { type: "integer", minimum: 0 }, copies: { type: "integer", minimum: 0 }, legs: { type: "integer", minimum: 0 }, ticksProved: { type: "boolean" }, partsProved: { type: "boolean" }, provedApart: { type: "integer", minimum: 2 }, network: { $ref: "#/definitions/network" }, proof: { $ref: "#/definitions/proof" }, rails: { type: "array", items: { $ref: "#/definitions/signalRail" } } } }, schema21 = { type: "object", required: ["verdict", "method"], additionalProperties: !1, properties: { verdict: { enum: ["equal", "different", "undecided"] }, method: { enum: ["patterns", "solver"] }, patterns: { type: "number", minimum: 0 }, counterexample: { type: "object", additionalProperties: { enum: [0, 1] } } } }, schema22 = { type: "object", required: ["signal", "rail", "wires", "tick"], additionalProperties: !1, properties: { signal: { type: "string" }, rail: { enum: ["high", "low", "both", "absorbed", "split"] }, wires: { type: "array", items: { type: "string" } }, lowWires: { type: "array", items: { type: "string" } }, tick: { type: ["integer", "null"], minimum: 0 } } }, schema14 = { type: "object", required: ["inputs", "inverters", "outputs"], additionalProperties: !1, properties: { inputs: { type: "array", items: { type: "object", required: ["name", "rail", "wire", "tick"], additionalProperties: !1, properties: { name: { type: "string" }, rail: { $ref: "#/definitions/wireRail" }, wire: { type: "string" }, tick: { type: "integer", minimum: 0 }, separate: { $ref: "#/definitions/separate" } } } }, inverters: { type: "array", items: { type: "object", required: ["wire", "legs", "tick"], additionalProperties: !1, properties: { wire: { type: "string" }, legs: { $ref: "#/definitions/legs" }, tick: { type: "integer", minimum: 0 }, separate: { $ref: "#/definitions/separate" }, copyOf: { type: "string" }, meaning: { type: "string" } } } }, outputs: { type: "array", items: { type: "object", required: ["name", "rail", "legs", "tick"], additionalProperties: !1, properties: { name: { type: "string" }, rail: { $ref: "#/definitions/wireRail" }, legs: { $ref: "#/definitions/legs" }, tick: { type: "integer", minimum: 0 }, meaning: { type: "string" } } } } } }, schema15 = { enum: ["high", "low"] }, schema16 = { type: "integer", minimum: 2 }, schema17 = { type: "array", minItems: 1, items: { type: "string" } };
function validate13(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    if (data.inputs === void 0) {
      const err0 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "inputs" } };
      vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
    }
    if (data.inverters === void 0) {
      const err1 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "inverters" } };
      vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
    }
    if (data.outputs === void 0) {
      const err2 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "outputs" } };
      vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
    }
    for (const key0 in data)
      if (!(key0 === "inputs" || key0 === "inverters" || key0 === "outputs")) {
        const err3 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
      }
    if (data.inputs !== void 0) {
      let data0 = data.inputs;
      if (Array.isArray(data0)) {
        const len0 = data0.length;
        for (let i0 = 0; i0 < len0; i0++) {
          let data1 = data0[i0];
          if (data1 && typeof data1 == "object" && !Array.isArray(data1)) {
            if (data1.name === void 0) {
              const err4 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/required", keyword: "required", params: { missingProperty: "name" } };
              vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
            }
            if (data1.rail === void 0) {
              const err5 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/required", keyword: "required", params: { missingProperty: "rail" } };
              vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
            }
            if (data1.wire === void 0) {
              const err6 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/required", keyword: "required", params: { missingProperty: "wire" } };
              vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
            }
            if (data1.tick === void 0) {
              const err7 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/required", keyword: "required", params: { missingProperty: "tick" } };
              vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
            }
            for (const key1 in data1)
              if (!(key1 === "name" || key1 === "rail" || key1 === "wire" || key1 === "tick" || key1 === "separate")) {
                const err8 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key1 } };
                vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
              }
            if (data1.name !== void 0 && typeof data1.name != "string") {
              const err9 = { instancePath: instancePath + "/inputs/" + i0 + "/name", schemaPath: "#/properties/inputs/items/properties/name/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
            }
            if (data1.rail !== void 0) {
              let data3 = data1.rail;
              if (!(data3 === "high" || data3 === "low")) {
                const err10 = { instancePath: instancePath + "/inputs/" + i0 + "/rail", schemaPath: "#/definitions/wireRail/enum", keyword: "enum", params: { allowedValues: schema15.enum } };
                vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
              }
            }
            if (data1.wire !== void 0 && typeof data1.wire != "string") {
              const err11 = { instancePath: instancePath + "/inputs/" + i0 + "/wire", schemaPath: "#/properties/inputs/items/properties/wire/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
            }
            if (data1.tick !== void 0) {
              let data5 = data1.tick;
              if (!(typeof data5 == "number" && !(data5 % 1) && !isNaN(data5) && isFinite(data5))) {
                const err12 = { instancePath: instancePath + "/inputs/" + i0 + "/tick", schemaPath: "#/properties/inputs/items/properties/tick/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
              }
              if (typeof data5 == "number" && isFinite(data5) && (data5 < 0 || isNaN(data5))) {
                const err13 = { instancePath: instancePath + "/inputs/" + i0 + "/tick", schemaPath: "#/properties/inputs/items/properties/tick/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                vErrors === null ? vErrors = [err13] : vErrors.push(err13), errors++;
              }
            }
            if (data1.separate !== void 0) {
              let data6 = data1.separate;
              if (!(typeof data6 == "number" && !(data6 % 1) && !isNaN(data6) && isFinite(data6))) {
                const err14 = { instancePath: instancePath + "/inputs/" + i0 + "/separate", schemaPath: "#/definitions/separate/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err14] : vErrors.push(err14), errors++;
              }
              if (typeof data6 == "number" && isFinite(data6) && (data6 < 2 || isNaN(data6))) {
                const err15 = { instancePath: instancePath + "/inputs/" + i0 + "/separate", schemaPath: "#/definitions/separate/minimum", keyword: "minimum", params: { comparison: ">=", limit: 2 } };
                vErrors === null ? vErrors = [err15] : vErrors.push(err15), errors++;
              }
            }
          } else {
            const err16 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err16] : vErrors.push(err16), errors++;
          }
        }
      } else {
        const err17 = { instancePath: instancePath + "/inputs", schemaPath: "#/properties/inputs/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err17] : vErrors.push(err17), errors++;
      }
    }
    if (data.inverters !== void 0) {
      let data7 = data.inverters;
      if (Array.isArray(data7)) {
        const len1 = data7.length;
        for (let i1 = 0; i1 < len1; i1++) {
          let data8 = data7[i1];
          if (data8 && typeof data8 == "object" && !Array.isArray(data8)) {
            if (data8.wire === void 0) {
              const err18 = { instancePath: instancePath + "/inverters/" + i1, schemaPath: "#/properties/inverters/items/required", keyword: "required", params: { missingProperty: "wire" } };
              vErrors === null ? vErrors = [err18] : vErrors.push(err18), errors++;
            }
            if (data8.legs === void 0) {
              const err19 = { instancePath: instancePath + "/inverters/" + i1, schemaPath: "#/properties/inverters/items/required", keyword: "required", params: { missingProperty: "legs" } };
              vErrors === null ? vErrors = [err19] : vErrors.push(err19), errors++;
            }
            if (data8.tick === void 0) {
              const err20 = { instancePath: instancePath + "/inverters/" + i1, schemaPath: "#/properties/inverters/items/required", keyword: "required", params: { missingProperty: "tick" } };
              vErrors === null ? vErrors = [err20] : vErrors.push(err20), errors++;
            }
            for (const key2 in data8)
              if (!(key2 === "wire" || key2 === "legs" || key2 === "tick" || key2 === "separate" || key2 === "copyOf" || key2 === "meaning")) {
                const err21 = { instancePath: instancePath + "/inverters/" + i1, schemaPath: "#/properties/inverters/items/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key2 } };
                vErrors === null ? vErrors = [err21] : vErrors.push(err21), errors++;
              }
            if (data8.wire !== void 0 && typeof data8.wire != "string") {
              const err22 = { instancePath: instancePath + "/inverters/" + i1 + "/wire", schemaPath: "#/properties/inverters/items/properties/wire/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err22] : vErrors.push(err22), errors++;
            }
            if (data8.legs !== void 0) {
              let data10 = data8.legs;
              if (Array.isArray(data10)) {
                if (data10.length < 1) {
                  const err23 = { instancePath: instancePath + "/inverters/" + i1 + "/legs", schemaPath: "#/definitions/legs/minItems", keyword: "minItems", params: { limit: 1 } };
                  vErrors === null ? vErrors = [err23] : vErrors.push(err23), errors++;
                }
                const len2 = data10.length;
                for (let i2 = 0; i2 < len2; i2++)
                  if (typeof data10[i2] != "string") {
                    const err24 = { instancePath: instancePath + "/inverters/" + i1 + "/legs/" + i2, schemaPath: "#/definitions/legs/items/type", keyword: "type", params: { type: "string" } };
                    vErrors === null ? vErrors = [err24] : vErrors.push(err24), errors++;
                  }
              } else {
                const err25 = { instancePath: instancePath + "/inverters/" + i1 + "/legs", schemaPath: "#/definitions/legs/type", keyword: "type", params: { type: "array" } };
                vErrors === null ? vErrors = [err25] : vErrors.push(err25), errors++;
              }
            }
            if (data8.tick !== void 0) {
              let data12 = data8.tick;
              if (!(typeof data12 == "number" && !(data12 % 1) && !isNaN(data12) && isFinite(data12))) {
                const err26 = { instancePath: instancePath + "/inverters/" + i1 + "/tick", schemaPath: "#/properties/inverters/items/properties/tick/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err26] : vErrors.push(err26), errors++;
              }
              if (typeof data12 == "number" && isFinite(data12) && (data12 < 0 || isNaN(data12))) {
                const err27 = { instancePath: instancePath + "/inverters/" + i1 + "/tick", schemaPath: "#/properties/inverters/items/properties/tick/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                vErrors === null ? vErrors = [err27] : vErrors.push(err27), errors++;
              }
            }
            if (data8.separate !== void 0) {
              let data13 = data8.separate;
              if (!(typeof data13 == "number" && !(data13 % 1) && !isNaN(data13) && isFinite(data13))) {
                const err28 = { instancePath: instancePath + "/inverters/" + i1 + "/separate", schemaPath: "#/definitions/separate/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err28] : vErrors.push(err28), errors++;
              }
              if (typeof data13 == "number" && isFinite(data13) && (data13 < 2 || isNaN(data13))) {
                const err29 = { instancePath: instancePath + "/inverters/" + i1 + "/separate", schemaPath: "#/definitions/separate/minimum", keyword: "minimum", params: { comparison: ">=", limit: 2 } };
                vErrors === null ? vErrors = [err29] : vErrors.push(err29), errors++;
              }
            }
            if (data8.copyOf !== void 0 && typeof data8.copyOf != "string") {
              const err30 = { instancePath: instancePath + "/inverters/" + i1 + "/copyOf", schemaPath: "#/properties/inverters/items/properties/copyOf/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err30] : vErrors.push(err30), errors++;
            }
            if (data8.meaning !== void 0 && typeof data8.meaning != "string") {
              const err31 = { instancePath: instancePath + "/inverters/" + i1 + "/meaning", schemaPath: "#/properties/inverters/items/properties/meaning/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err31] : vErrors.push(err31), errors++;
            }
          } else {
            const err32 = { instancePath: instancePath + "/inverters/" + i1, schemaPath: "#/properties/inverters/items/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err32] : vErrors.push(err32), errors++;
          }
        }
      } else {
        const err33 = { instancePath: instancePath + "/inverters", schemaPath: "#/properties/inverters/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err33] : vErrors.push(err33), errors++;
      }
    }
    if (data.outputs !== void 0) {
      let data16 = data.outputs;
      if (Array.isArray(data16)) {
        const len3 = data16.length;
        for (let i3 = 0; i3 < len3; i3++) {
          let data17 = data16[i3];
          if (data17 && typeof data17 == "object" && !Array.isArray(data17)) {
            if (data17.name === void 0) {
              const err34 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/required", keyword: "required", params: { missingProperty: "name" } };
              vErrors === null ? vErrors = [err34] : vErrors.push(err34), errors++;
            }
            if (data17.rail === void 0) {
              const err35 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/required", keyword: "required", params: { missingProperty: "rail" } };
              vErrors === null ? vErrors = [err35] : vErrors.push(err35), errors++;
            }
            if (data17.legs === void 0) {
              const err36 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/required", keyword: "required", params: { missingProperty: "legs" } };
              vErrors === null ? vErrors = [err36] : vErrors.push(err36), errors++;
            }
            if (data17.tick === void 0) {
              const err37 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/required", keyword: "required", params: { missingProperty: "tick" } };
              vErrors === null ? vErrors = [err37] : vErrors.push(err37), errors++;
            }
            for (const key3 in data17)
              if (!(key3 === "name" || key3 === "rail" || key3 === "legs" || key3 === "tick" || key3 === "meaning")) {
                const err38 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key3 } };
                vErrors === null ? vErrors = [err38] : vErrors.push(err38), errors++;
              }
            if (data17.name !== void 0 && typeof data17.name != "string") {
              const err39 = { instancePath: instancePath + "/outputs/" + i3 + "/name", schemaPath: "#/properties/outputs/items/properties/name/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err39] : vErrors.push(err39), errors++;
            }
            if (data17.rail !== void 0) {
              let data19 = data17.rail;
              if (!(data19 === "high" || data19 === "low")) {
                const err40 = { instancePath: instancePath + "/outputs/" + i3 + "/rail", schemaPath: "#/definitions/wireRail/enum", keyword: "enum", params: { allowedValues: schema15.enum } };
                vErrors === null ? vErrors = [err40] : vErrors.push(err40), errors++;
              }
            }
            if (data17.legs !== void 0) {
              let data20 = data17.legs;
              if (Array.isArray(data20)) {
                if (data20.length < 1) {
                  const err41 = { instancePath: instancePath + "/outputs/" + i3 + "/legs", schemaPath: "#/definitions/legs/minItems", keyword: "minItems", params: { limit: 1 } };
                  vErrors === null ? vErrors = [err41] : vErrors.push(err41), errors++;
                }
                const len4 = data20.length;
                for (let i4 = 0; i4 < len4; i4++)
                  if (typeof data20[i4] != "string") {
                    const err42 = { instancePath: instancePath + "/outputs/" + i3 + "/legs/" + i4, schemaPath: "#/definitions/legs/items/type", keyword: "type", params: { type: "string" } };
                    vErrors === null ? vErrors = [err42] : vErrors.push(err42), errors++;
                  }
              } else {
                const err43 = { instancePath: instancePath + "/outputs/" + i3 + "/legs", schemaPath: "#/definitions/legs/type", keyword: "type", params: { type: "array" } };
                vErrors === null ? vErrors = [err43] : vErrors.push(err43), errors++;
              }
            }
            if (data17.tick !== void 0) {
              let data22 = data17.tick;
              if (!(typeof data22 == "number" && !(data22 % 1) && !isNaN(data22) && isFinite(data22))) {
                const err44 = { instancePath: instancePath + "/outputs/" + i3 + "/tick", schemaPath: "#/properties/outputs/items/properties/tick/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err44] : vErrors.push(err44), errors++;
              }
              if (typeof data22 == "number" && isFinite(data22) && (data22 < 0 || isNaN(data22))) {
                const err45 = { instancePath: instancePath + "/outputs/" + i3 + "/tick", schemaPath: "#/properties/outputs/items/properties/tick/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                vErrors === null ? vErrors = [err45] : vErrors.push(err45), errors++;
              }
            }
            if (data17.meaning !== void 0 && typeof data17.meaning != "string") {
              const err46 = { instancePath: instancePath + "/outputs/" + i3 + "/meaning", schemaPath: "#/properties/outputs/items/properties/meaning/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err46] : vErrors.push(err46), errors++;
            }
          } else {
            const err47 = { instancePath: instancePath + "/outputs/" + i3, schemaPath: "#/properties/outputs/items/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err47] : vErrors.push(err47), errors++;
          }
        }
      } else {
        const err48 = { instancePath: instancePath + "/outputs", schemaPath: "#/properties/outputs/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err48] : vErrors.push(err48), errors++;
      }
    }
  } else {
    const err49 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err49] : vErrors.push(err49), errors++;
  }
  return validate13.errors = vErrors, errors === 0;
}
function validate12(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    if (data.ticks === void 0) {
      const err0 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "ticks" } };
      vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
    }
    if (data.parts === void 0) {
      const err1 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "parts" } };
      vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
    }
    if (data.copies === void 0) {
      const err2 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "copies" } };
      vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
    }
    if (data.legs === void 0) {
      const err3 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "legs" } };
      vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
    }
    if (data.ticksProved === void 0) {
      const err4 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "ticksProved" } };
      vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
    }
    if (data.partsProved === void 0) {
      const err5 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "partsProved" } };
      vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
    }
    if (data.network === void 0) {
      const err6 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "network" } };
      vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
    }
    if (data.proof === void 0) {
      const err7 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "proof" } };
      vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
    }
    if (data.rails === void 0) {
      const err8 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "rails" } };
      vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
    }
    for (const key0 in data)
      if (!func2.call(schema13.properties, key0)) {
        const err9 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
      }
    if (data.ticks !== void 0) {
      let data0 = data.ticks;
      if (!(typeof data0 == "number" && !(data0 % 1) && !isNaN(data0) && isFinite(data0))) {
        const err10 = { instancePath: instancePath + "/ticks", schemaPath: "#/properties/ticks/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
      }
      if (typeof data0 == "number" && isFinite(data0) && (data0 < 0 || isNaN(data0))) {
        const err11 = { instancePath: instancePath + "/ticks", schemaPath: "#/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
      }
    }
    if (data.parts !== void 0) {
      let data1 = data.parts;
      if (!(typeof data1 == "number" && !(data1 % 1) && !isNaN(data1) && isFinite(data1))) {
        const err12 = { instancePath: instancePath + "/parts", schemaPath: "#/properties/parts/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
      }
      if (typeof data1 == "number" && isFinite(data1) && (data1 < 0 || isNaN(data1))) {
        const err13 = { instancePath: instancePath + "/parts", schemaPath: "#/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err13] : vErrors.push(err13), errors++;
      }
    }
    if (data.copies !== void 0) {
      let data2 = data.copies;
      if (!(typeof data2 == "number" && !(data2 % 1) && !isNaN(data2) && isFinite(data2))) {
        const err14 = { instancePath: instancePath + "/copies", schemaPath: "#/properties/copies/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err14] : vErrors.push(err14), errors++;
      }
      if (typeof data2 == "number" && isFinite(data2) && (data2 < 0 || isNaN(data2))) {
        const err15 = { instancePath: instancePath + "/copies", schemaPath: "#/properties/copies/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err15] : vErrors.push(err15), errors++;
      }
    }
    if (data.legs !== void 0) {
      let data3 = data.legs;
      if (!(typeof data3 == "number" && !(data3 % 1) && !isNaN(data3) && isFinite(data3))) {
        const err16 = { instancePath: instancePath + "/legs", schemaPath: "#/properties/legs/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err16] : vErrors.push(err16), errors++;
      }
      if (typeof data3 == "number" && isFinite(data3) && (data3 < 0 || isNaN(data3))) {
        const err17 = { instancePath: instancePath + "/legs", schemaPath: "#/properties/legs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err17] : vErrors.push(err17), errors++;
      }
    }
    if (data.ticksProved !== void 0 && typeof data.ticksProved != "boolean") {
      const err18 = { instancePath: instancePath + "/ticksProved", schemaPath: "#/properties/ticksProved/type", keyword: "type", params: { type: "boolean" } };
      vErrors === null ? vErrors = [err18] : vErrors.push(err18), errors++;
    }
    if (data.partsProved !== void 0 && typeof data.partsProved != "boolean") {
      const err19 = { instancePath: instancePath + "/partsProved", schemaPath: "#/properties/partsProved/type", keyword: "type", params: { type: "boolean" } };
      vErrors === null ? vErrors = [err19] : vErrors.push(err19), errors++;
    }
    if (data.provedApart !== void 0) {
      let data6 = data.provedApart;
      if (!(typeof data6 == "number" && !(data6 % 1) && !isNaN(data6) && isFinite(data6))) {
        const err20 = { instancePath: instancePath + "/provedApart", schemaPath: "#/properties/provedApart/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err20] : vErrors.push(err20), errors++;
      }
      if (typeof data6 == "number" && isFinite(data6) && (data6 < 2 || isNaN(data6))) {
        const err21 = { instancePath: instancePath + "/provedApart", schemaPath: "#/properties/provedApart/minimum", keyword: "minimum", params: { comparison: ">=", limit: 2 } };
        vErrors === null ? vErrors = [err21] : vErrors.push(err21), errors++;
      }
    }
    if (data.network !== void 0 && (validate13(data.network, { instancePath: instancePath + "/network", parentData: data, parentDataProperty: "network", rootData }) || (vErrors = vErrors === null ? validate13.errors : vErrors.concat(validate13.errors), errors = vErrors.length)), data.proof !== void 0) {
      let data8 = data.proof;
      if (data8 && typeof data8 == "object" && !Array.isArray(data8)) {
        if (data8.verdict === void 0) {
          const err22 = { instancePath: instancePath + "/proof", schemaPath: "#/definitions/proof/required", keyword: "required", params: { missingProperty: "verdict" } };
          vErrors === null ? vErrors = [err22] : vErrors.push(err22), errors++;
        }
        if (data8.method === void 0) {
          const err23 = { instancePath: instancePath + "/proof", schemaPath: "#/definitions/proof/required", keyword: "required", params: { missingProperty: "method" } };
          vErrors === null ? vErrors = [err23] : vErrors.push(err23), errors++;
        }
        for (const key1 in data8)
          if (!(key1 === "verdict" || key1 === "method" || key1 === "patterns" || key1 === "counterexample")) {
            const err24 = { instancePath: instancePath + "/proof", schemaPath: "#/definitions/proof/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key1 } };
            vErrors === null ? vErrors = [err24] : vErrors.push(err24), errors++;
          }
        if (data8.verdict !== void 0) {
          let data9 = data8.verdict;
          if (!(data9 === "equal" || data9 === "different" || data9 === "undecided")) {
            const err25 = { instancePath: instancePath + "/proof/verdict", schemaPath: "#/definitions/proof/properties/verdict/enum", keyword: "enum", params: { allowedValues: schema21.properties.verdict.enum } };
            vErrors === null ? vErrors = [err25] : vErrors.push(err25), errors++;
          }
        }
        if (data8.method !== void 0) {
          let data10 = data8.method;
          if (!(data10 === "patterns" || data10 === "solver")) {
            const err26 = { instancePath: instancePath + "/proof/method", schemaPath: "#/definitions/proof/properties/method/enum", keyword: "enum", params: { allowedValues: schema21.properties.method.enum } };
            vErrors === null ? vErrors = [err26] : vErrors.push(err26), errors++;
          }
        }
        if (data8.patterns !== void 0) {
          let data11 = data8.patterns;
          if (typeof data11 == "number" && isFinite(data11)) {
            if (data11 < 0 || isNaN(data11)) {
              const err27 = { instancePath: instancePath + "/proof/patterns", schemaPath: "#/definitions/proof/properties/patterns/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
              vErrors === null ? vErrors = [err27] : vErrors.push(err27), errors++;
            }
          } else {
            const err28 = { instancePath: instancePath + "/proof/patterns", schemaPath: "#/definitions/proof/properties/patterns/type", keyword: "type", params: { type: "number" } };
            vErrors === null ? vErrors = [err28] : vErrors.push(err28), errors++;
          }
        }
        if (data8.counterexample !== void 0) {
          let data12 = data8.counterexample;
          if (data12 && typeof data12 == "object" && !Array.isArray(data12))
            for (const key2 in data12) {
              let data13 = data12[key2];
              if (!(data13 === 0 || data13 === 1)) {
                const err29 = { instancePath: instancePath + "/proof/counterexample/" + key2.replace(/~/g, "~0").replace(/\//g, "~1"), schemaPath: "#/definitions/proof/properties/counterexample/additionalProperties/enum", keyword: "enum", params: { allowedValues: schema21.properties.counterexample.additionalProperties.enum } };
                vErrors === null ? vErrors = [err29] : vErrors.push(err29), errors++;
              }
            }
          else {
            const err30 = { instancePath: instancePath + "/proof/counterexample", schemaPath: "#/definitions/proof/properties/counterexample/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err30] : vErrors.push(err30), errors++;
          }
        }
      } else {
        const err31 = { instancePath: instancePath + "/proof", schemaPath: "#/definitions/proof/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err31] : vErrors.push(err31), errors++;
      }
    }
    if (data.rails !== void 0) {
      let data14 = data.rails;
      if (Array.isArray(data14)) {
        const len0 = data14.length;
        for (let i0 = 0; i0 < len0; i0++) {
          let data15 = data14[i0];
          if (data15 && typeof data15 == "object" && !Array.isArray(data15)) {
            if (data15.signal === void 0) {
              const err32 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/required", keyword: "required", params: { missingProperty: "signal" } };
              vErrors === null ? vErrors = [err32] : vErrors.push(err32), errors++;
            }
            if (data15.rail === void 0) {
              const err33 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/required", keyword: "required", params: { missingProperty: "rail" } };
              vErrors === null ? vErrors = [err33] : vErrors.push(err33), errors++;
            }
            if (data15.wires === void 0) {
              const err34 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/required", keyword: "required", params: { missingProperty: "wires" } };
              vErrors === null ? vErrors = [err34] : vErrors.push(err34), errors++;
            }
            if (data15.tick === void 0) {
              const err35 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/required", keyword: "required", params: { missingProperty: "tick" } };
              vErrors === null ? vErrors = [err35] : vErrors.push(err35), errors++;
            }
            for (const key3 in data15)
              if (!(key3 === "signal" || key3 === "rail" || key3 === "wires" || key3 === "lowWires" || key3 === "tick")) {
                const err36 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key3 } };
                vErrors === null ? vErrors = [err36] : vErrors.push(err36), errors++;
              }
            if (data15.signal !== void 0 && typeof data15.signal != "string") {
              const err37 = { instancePath: instancePath + "/rails/" + i0 + "/signal", schemaPath: "#/definitions/signalRail/properties/signal/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err37] : vErrors.push(err37), errors++;
            }
            if (data15.rail !== void 0) {
              let data17 = data15.rail;
              if (!(data17 === "high" || data17 === "low" || data17 === "both" || data17 === "absorbed" || data17 === "split")) {
                const err38 = { instancePath: instancePath + "/rails/" + i0 + "/rail", schemaPath: "#/definitions/signalRail/properties/rail/enum", keyword: "enum", params: { allowedValues: schema22.properties.rail.enum } };
                vErrors === null ? vErrors = [err38] : vErrors.push(err38), errors++;
              }
            }
            if (data15.wires !== void 0) {
              let data18 = data15.wires;
              if (Array.isArray(data18)) {
                const len1 = data18.length;
                for (let i1 = 0; i1 < len1; i1++)
                  if (typeof data18[i1] != "string") {
                    const err39 = { instancePath: instancePath + "/rails/" + i0 + "/wires/" + i1, schemaPath: "#/definitions/signalRail/properties/wires/items/type", keyword: "type", params: { type: "string" } };
                    vErrors === null ? vErrors = [err39] : vErrors.push(err39), errors++;
                  }
              } else {
                const err40 = { instancePath: instancePath + "/rails/" + i0 + "/wires", schemaPath: "#/definitions/signalRail/properties/wires/type", keyword: "type", params: { type: "array" } };
                vErrors === null ? vErrors = [err40] : vErrors.push(err40), errors++;
              }
            }
            if (data15.lowWires !== void 0) {
              let data20 = data15.lowWires;
              if (Array.isArray(data20)) {
                const len2 = data20.length;
                for (let i2 = 0; i2 < len2; i2++)
                  if (typeof data20[i2] != "string") {
                    const err41 = { instancePath: instancePath + "/rails/" + i0 + "/lowWires/" + i2, schemaPath: "#/definitions/signalRail/properties/lowWires/items/type", keyword: "type", params: { type: "string" } };
                    vErrors === null ? vErrors = [err41] : vErrors.push(err41), errors++;
                  }
              } else {
                const err42 = { instancePath: instancePath + "/rails/" + i0 + "/lowWires", schemaPath: "#/definitions/signalRail/properties/lowWires/type", keyword: "type", params: { type: "array" } };
                vErrors === null ? vErrors = [err42] : vErrors.push(err42), errors++;
              }
            }
            if (data15.tick !== void 0) {
              let data22 = data15.tick;
              if (!(typeof data22 == "number" && !(data22 % 1) && !isNaN(data22) && isFinite(data22)) && data22 !== null) {
                const err43 = { instancePath: instancePath + "/rails/" + i0 + "/tick", schemaPath: "#/definitions/signalRail/properties/tick/type", keyword: "type", params: { type: schema22.properties.tick.type } };
                vErrors === null ? vErrors = [err43] : vErrors.push(err43), errors++;
              }
              if (typeof data22 == "number" && isFinite(data22) && (data22 < 0 || isNaN(data22))) {
                const err44 = { instancePath: instancePath + "/rails/" + i0 + "/tick", schemaPath: "#/definitions/signalRail/properties/tick/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                vErrors === null ? vErrors = [err44] : vErrors.push(err44), errors++;
              }
            }
          } else {
            const err45 = { instancePath: instancePath + "/rails/" + i0, schemaPath: "#/definitions/signalRail/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err45] : vErrors.push(err45), errors++;
          }
        }
      } else {
        const err46 = { instancePath: instancePath + "/rails", schemaPath: "#/properties/rails/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err46] : vErrors.push(err46), errors++;
      }
    }
  } else {
    const err47 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err47] : vErrors.push(err47), errors++;
  }
  return validate12.errors = vErrors, errors === 0;
}
function validate11(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    if (data.format === void 0) {
      const err0 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "format" } };
      vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
    }
    if (data.version === void 0) {
      const err1 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "version" } };
      vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
    }
    if (data.source === void 0) {
      const err2 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "source" } };
      vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
    }
    if (data.target === void 0) {
      const err3 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "target" } };
      vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
    }
    if (data.effort === void 0) {
      const err4 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "effort" } };
      vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
    }
    if (data.seed === void 0) {
      const err5 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "seed" } };
      vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
    }
    if (data.stop === void 0) {
      const err6 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "stop" } };
      vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
    }
    if (data.asWritten === void 0) {
      const err7 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "asWritten" } };
      vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
    }
    if (data.fastest === void 0) {
      const err8 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "fastest" } };
      vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
    }
    if (data.points === void 0) {
      const err9 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "points" } };
      vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
    }
    if (data.notices === void 0) {
      const err10 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "notices" } };
      vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
    }
    for (const key0 in data)
      if (!func2.call(schema12.properties, key0)) {
        const err11 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
      }
    if (data.format !== void 0 && data.format !== "tickwright.result/1") {
      const err12 = { instancePath: instancePath + "/format", schemaPath: "#/properties/format/const", keyword: "const", params: { allowedValue: "tickwright.result/1" } };
      vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
    }
    if (data.version !== void 0 && typeof data.version != "string") {
      const err13 = { instancePath: instancePath + "/version", schemaPath: "#/properties/version/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err13] : vErrors.push(err13), errors++;
    }
    if (data.source !== void 0 && typeof data.source != "string") {
      const err14 = { instancePath: instancePath + "/source", schemaPath: "#/properties/source/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err14] : vErrors.push(err14), errors++;
    }
    if (data.target !== void 0 && typeof data.target != "string") {
      const err15 = { instancePath: instancePath + "/target", schemaPath: "#/properties/target/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err15] : vErrors.push(err15), errors++;
    }
    if (data.join !== void 0) {
      let data4 = data.join;
      if (!(data4 === "or" || data4 === "and")) {
        const err16 = { instancePath: instancePath + "/join", schemaPath: "#/properties/join/enum", keyword: "enum", params: { allowedValues: schema12.properties.join.enum } };
        vErrors === null ? vErrors = [err16] : vErrors.push(err16), errors++;
      }
    }
    if (data.effort !== void 0) {
      let data5 = data.effort;
      if (!(data5 === "quick" || data5 === "normal" || data5 === "deep")) {
        const err17 = { instancePath: instancePath + "/effort", schemaPath: "#/properties/effort/enum", keyword: "enum", params: { allowedValues: schema12.properties.effort.enum } };
        vErrors === null ? vErrors = [err17] : vErrors.push(err17), errors++;
      }
    }
    if (data.seed !== void 0) {
      let data6 = data.seed;
      if (!(typeof data6 == "number" && !(data6 % 1) && !isNaN(data6) && isFinite(data6))) {
        const err18 = { instancePath: instancePath + "/seed", schemaPath: "#/properties/seed/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err18] : vErrors.push(err18), errors++;
      }
      if (typeof data6 == "number" && isFinite(data6) && (data6 < 0 || isNaN(data6))) {
        const err19 = { instancePath: instancePath + "/seed", schemaPath: "#/properties/seed/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err19] : vErrors.push(err19), errors++;
      }
    }
    if (data.stop !== void 0 && typeof data.stop != "string") {
      const err20 = { instancePath: instancePath + "/stop", schemaPath: "#/properties/stop/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err20] : vErrors.push(err20), errors++;
    }
    if (data.asWritten !== void 0) {
      let data8 = data.asWritten;
      if (!(data8 && typeof data8 == "object" && !Array.isArray(data8)) && data8 !== null) {
        const err21 = { instancePath: instancePath + "/asWritten", schemaPath: "#/properties/asWritten/type", keyword: "type", params: { type: schema12.properties.asWritten.type } };
        vErrors === null ? vErrors = [err21] : vErrors.push(err21), errors++;
      }
      if (data8 && typeof data8 == "object" && !Array.isArray(data8)) {
        if (data8.ticks === void 0) {
          const err22 = { instancePath: instancePath + "/asWritten", schemaPath: "#/properties/asWritten/required", keyword: "required", params: { missingProperty: "ticks" } };
          vErrors === null ? vErrors = [err22] : vErrors.push(err22), errors++;
        }
        if (data8.parts === void 0) {
          const err23 = { instancePath: instancePath + "/asWritten", schemaPath: "#/properties/asWritten/required", keyword: "required", params: { missingProperty: "parts" } };
          vErrors === null ? vErrors = [err23] : vErrors.push(err23), errors++;
        }
        for (const key1 in data8)
          if (!(key1 === "ticks" || key1 === "parts")) {
            const err24 = { instancePath: instancePath + "/asWritten", schemaPath: "#/properties/asWritten/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key1 } };
            vErrors === null ? vErrors = [err24] : vErrors.push(err24), errors++;
          }
        if (data8.ticks !== void 0) {
          let data9 = data8.ticks;
          if (!(typeof data9 == "number" && !(data9 % 1) && !isNaN(data9) && isFinite(data9))) {
            const err25 = { instancePath: instancePath + "/asWritten/ticks", schemaPath: "#/properties/asWritten/properties/ticks/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err25] : vErrors.push(err25), errors++;
          }
          if (typeof data9 == "number" && isFinite(data9) && (data9 < 0 || isNaN(data9))) {
            const err26 = { instancePath: instancePath + "/asWritten/ticks", schemaPath: "#/properties/asWritten/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err26] : vErrors.push(err26), errors++;
          }
        }
        if (data8.parts !== void 0) {
          let data10 = data8.parts;
          if (!(typeof data10 == "number" && !(data10 % 1) && !isNaN(data10) && isFinite(data10))) {
            const err27 = { instancePath: instancePath + "/asWritten/parts", schemaPath: "#/properties/asWritten/properties/parts/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err27] : vErrors.push(err27), errors++;
          }
          if (typeof data10 == "number" && isFinite(data10) && (data10 < 0 || isNaN(data10))) {
            const err28 = { instancePath: instancePath + "/asWritten/parts", schemaPath: "#/properties/asWritten/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err28] : vErrors.push(err28), errors++;
          }
        }
      }
    }
    if (data.fastest !== void 0) {
      let data11 = data.fastest;
      if (!(data11 && typeof data11 == "object" && !Array.isArray(data11)) && data11 !== null) {
        const err29 = { instancePath: instancePath + "/fastest", schemaPath: "#/properties/fastest/type", keyword: "type", params: { type: schema12.properties.fastest.type } };
        vErrors === null ? vErrors = [err29] : vErrors.push(err29), errors++;
      }
      if (data11 && typeof data11 == "object" && !Array.isArray(data11)) {
        if (data11.ticks === void 0) {
          const err30 = { instancePath: instancePath + "/fastest", schemaPath: "#/properties/fastest/required", keyword: "required", params: { missingProperty: "ticks" } };
          vErrors === null ? vErrors = [err30] : vErrors.push(err30), errors++;
        }
        if (data11.proved === void 0) {
          const err31 = { instancePath: instancePath + "/fastest", schemaPath: "#/properties/fastest/required", keyword: "required", params: { missingProperty: "proved" } };
          vErrors === null ? vErrors = [err31] : vErrors.push(err31), errors++;
        }
        if (data11.parts === void 0) {
          const err32 = { instancePath: instancePath + "/fastest", schemaPath: "#/properties/fastest/required", keyword: "required", params: { missingProperty: "parts" } };
          vErrors === null ? vErrors = [err32] : vErrors.push(err32), errors++;
        }
        for (const key2 in data11)
          if (!(key2 === "ticks" || key2 === "proved" || key2 === "parts")) {
            const err33 = { instancePath: instancePath + "/fastest", schemaPath: "#/properties/fastest/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key2 } };
            vErrors === null ? vErrors = [err33] : vErrors.push(err33), errors++;
          }
        if (data11.ticks !== void 0) {
          let data12 = data11.ticks;
          if (!(typeof data12 == "number" && !(data12 % 1) && !isNaN(data12) && isFinite(data12))) {
            const err34 = { instancePath: instancePath + "/fastest/ticks", schemaPath: "#/properties/fastest/properties/ticks/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err34] : vErrors.push(err34), errors++;
          }
          if (typeof data12 == "number" && isFinite(data12) && (data12 < 0 || isNaN(data12))) {
            const err35 = { instancePath: instancePath + "/fastest/ticks", schemaPath: "#/properties/fastest/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err35] : vErrors.push(err35), errors++;
          }
        }
        if (data11.proved !== void 0 && typeof data11.proved != "boolean") {
          const err36 = { instancePath: instancePath + "/fastest/proved", schemaPath: "#/properties/fastest/properties/proved/type", keyword: "type", params: { type: "boolean" } };
          vErrors === null ? vErrors = [err36] : vErrors.push(err36), errors++;
        }
        if (data11.parts !== void 0) {
          let data14 = data11.parts;
          if (!(typeof data14 == "number" && !(data14 % 1) && !isNaN(data14) && isFinite(data14)) && data14 !== null) {
            const err37 = { instancePath: instancePath + "/fastest/parts", schemaPath: "#/properties/fastest/properties/parts/type", keyword: "type", params: { type: schema12.properties.fastest.properties.parts.type } };
            vErrors === null ? vErrors = [err37] : vErrors.push(err37), errors++;
          }
          if (typeof data14 == "number" && isFinite(data14) && (data14 < 0 || isNaN(data14))) {
            const err38 = { instancePath: instancePath + "/fastest/parts", schemaPath: "#/properties/fastest/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err38] : vErrors.push(err38), errors++;
          }
        }
      }
    }
    if (data.chosen !== void 0) {
      let data15 = data.chosen;
      if (!(typeof data15 == "number" && !(data15 % 1) && !isNaN(data15) && isFinite(data15))) {
        const err39 = { instancePath: instancePath + "/chosen", schemaPath: "#/properties/chosen/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err39] : vErrors.push(err39), errors++;
      }
      if (typeof data15 == "number" && isFinite(data15) && (data15 < 0 || isNaN(data15))) {
        const err40 = { instancePath: instancePath + "/chosen", schemaPath: "#/properties/chosen/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
        vErrors === null ? vErrors = [err40] : vErrors.push(err40), errors++;
      }
    }
    if (data.sharing !== void 0) {
      let data16 = data.sharing;
      if (data16 && typeof data16 == "object" && !Array.isArray(data16)) {
        if (data16.way === void 0) {
          const err41 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/required", keyword: "required", params: { missingProperty: "way" } };
          vErrors === null ? vErrors = [err41] : vErrors.push(err41), errors++;
        }
        if (data16.groups === void 0) {
          const err42 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/required", keyword: "required", params: { missingProperty: "groups" } };
          vErrors === null ? vErrors = [err42] : vErrors.push(err42), errors++;
        }
        if (data16.alone === void 0) {
          const err43 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/required", keyword: "required", params: { missingProperty: "alone" } };
          vErrors === null ? vErrors = [err43] : vErrors.push(err43), errors++;
        }
        if (data16.together === void 0) {
          const err44 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/required", keyword: "required", params: { missingProperty: "together" } };
          vErrors === null ? vErrors = [err44] : vErrors.push(err44), errors++;
        }
        for (const key3 in data16)
          if (!(key3 === "way" || key3 === "groups" || key3 === "alone" || key3 === "grouped" || key3 === "together")) {
            const err45 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key3 } };
            vErrors === null ? vErrors = [err45] : vErrors.push(err45), errors++;
          }
        if (data16.way !== void 0) {
          let data17 = data16.way;
          if (!(data17 === "together" || data17 === "grouped" || data17 === "alone")) {
            const err46 = { instancePath: instancePath + "/sharing/way", schemaPath: "#/properties/sharing/properties/way/enum", keyword: "enum", params: { allowedValues: schema12.properties.sharing.properties.way.enum } };
            vErrors === null ? vErrors = [err46] : vErrors.push(err46), errors++;
          }
        }
        if (data16.groups !== void 0) {
          let data18 = data16.groups;
          if (Array.isArray(data18)) {
            const len0 = data18.length;
            for (let i0 = 0; i0 < len0; i0++) {
              let data19 = data18[i0];
              if (data19 && typeof data19 == "object" && !Array.isArray(data19)) {
                if (data19.ticks === void 0) {
                  const err47 = { instancePath: instancePath + "/sharing/groups/" + i0, schemaPath: "#/properties/sharing/properties/groups/items/required", keyword: "required", params: { missingProperty: "ticks" } };
                  vErrors === null ? vErrors = [err47] : vErrors.push(err47), errors++;
                }
                if (data19.parts === void 0) {
                  const err48 = { instancePath: instancePath + "/sharing/groups/" + i0, schemaPath: "#/properties/sharing/properties/groups/items/required", keyword: "required", params: { missingProperty: "parts" } };
                  vErrors === null ? vErrors = [err48] : vErrors.push(err48), errors++;
                }
                if (data19.outputs === void 0) {
                  const err49 = { instancePath: instancePath + "/sharing/groups/" + i0, schemaPath: "#/properties/sharing/properties/groups/items/required", keyword: "required", params: { missingProperty: "outputs" } };
                  vErrors === null ? vErrors = [err49] : vErrors.push(err49), errors++;
                }
                for (const key4 in data19)
                  if (!(key4 === "ticks" || key4 === "parts" || key4 === "outputs")) {
                    const err50 = { instancePath: instancePath + "/sharing/groups/" + i0, schemaPath: "#/properties/sharing/properties/groups/items/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key4 } };
                    vErrors === null ? vErrors = [err50] : vErrors.push(err50), errors++;
                  }
                if (data19.ticks !== void 0) {
                  let data20 = data19.ticks;
                  if (!(typeof data20 == "number" && !(data20 % 1) && !isNaN(data20) && isFinite(data20))) {
                    const err51 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/ticks", schemaPath: "#/properties/sharing/properties/groups/items/properties/ticks/type", keyword: "type", params: { type: "integer" } };
                    vErrors === null ? vErrors = [err51] : vErrors.push(err51), errors++;
                  }
                  if (typeof data20 == "number" && isFinite(data20) && (data20 < 0 || isNaN(data20))) {
                    const err52 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/ticks", schemaPath: "#/properties/sharing/properties/groups/items/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                    vErrors === null ? vErrors = [err52] : vErrors.push(err52), errors++;
                  }
                }
                if (data19.parts !== void 0) {
                  let data21 = data19.parts;
                  if (!(typeof data21 == "number" && !(data21 % 1) && !isNaN(data21) && isFinite(data21))) {
                    const err53 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/parts", schemaPath: "#/properties/sharing/properties/groups/items/properties/parts/type", keyword: "type", params: { type: "integer" } };
                    vErrors === null ? vErrors = [err53] : vErrors.push(err53), errors++;
                  }
                  if (typeof data21 == "number" && isFinite(data21) && (data21 < 0 || isNaN(data21))) {
                    const err54 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/parts", schemaPath: "#/properties/sharing/properties/groups/items/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
                    vErrors === null ? vErrors = [err54] : vErrors.push(err54), errors++;
                  }
                }
                if (data19.outputs !== void 0) {
                  let data22 = data19.outputs;
                  if (Array.isArray(data22)) {
                    const len1 = data22.length;
                    for (let i1 = 0; i1 < len1; i1++)
                      if (typeof data22[i1] != "string") {
                        const err55 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/outputs/" + i1, schemaPath: "#/properties/sharing/properties/groups/items/properties/outputs/items/type", keyword: "type", params: { type: "string" } };
                        vErrors === null ? vErrors = [err55] : vErrors.push(err55), errors++;
                      }
                  } else {
                    const err56 = { instancePath: instancePath + "/sharing/groups/" + i0 + "/outputs", schemaPath: "#/properties/sharing/properties/groups/items/properties/outputs/type", keyword: "type", params: { type: "array" } };
                    vErrors === null ? vErrors = [err56] : vErrors.push(err56), errors++;
                  }
                }
              } else {
                const err57 = { instancePath: instancePath + "/sharing/groups/" + i0, schemaPath: "#/properties/sharing/properties/groups/items/type", keyword: "type", params: { type: "object" } };
                vErrors === null ? vErrors = [err57] : vErrors.push(err57), errors++;
              }
            }
          } else {
            const err58 = { instancePath: instancePath + "/sharing/groups", schemaPath: "#/properties/sharing/properties/groups/type", keyword: "type", params: { type: "array" } };
            vErrors === null ? vErrors = [err58] : vErrors.push(err58), errors++;
          }
        }
        if (data16.alone !== void 0) {
          let data24 = data16.alone;
          if (!(typeof data24 == "number" && !(data24 % 1) && !isNaN(data24) && isFinite(data24)) && data24 !== null) {
            const err59 = { instancePath: instancePath + "/sharing/alone", schemaPath: "#/properties/sharing/properties/alone/type", keyword: "type", params: { type: schema12.properties.sharing.properties.alone.type } };
            vErrors === null ? vErrors = [err59] : vErrors.push(err59), errors++;
          }
          if (typeof data24 == "number" && isFinite(data24) && (data24 < 0 || isNaN(data24))) {
            const err60 = { instancePath: instancePath + "/sharing/alone", schemaPath: "#/properties/sharing/properties/alone/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err60] : vErrors.push(err60), errors++;
          }
        }
        if (data16.grouped !== void 0) {
          let data25 = data16.grouped;
          if (!(typeof data25 == "number" && !(data25 % 1) && !isNaN(data25) && isFinite(data25)) && data25 !== null) {
            const err61 = { instancePath: instancePath + "/sharing/grouped", schemaPath: "#/properties/sharing/properties/grouped/type", keyword: "type", params: { type: schema12.properties.sharing.properties.grouped.type } };
            vErrors === null ? vErrors = [err61] : vErrors.push(err61), errors++;
          }
          if (typeof data25 == "number" && isFinite(data25) && (data25 < 0 || isNaN(data25))) {
            const err62 = { instancePath: instancePath + "/sharing/grouped", schemaPath: "#/properties/sharing/properties/grouped/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err62] : vErrors.push(err62), errors++;
          }
        }
        if (data16.together !== void 0) {
          let data26 = data16.together;
          if (!(typeof data26 == "number" && !(data26 % 1) && !isNaN(data26) && isFinite(data26)) && data26 !== null) {
            const err63 = { instancePath: instancePath + "/sharing/together", schemaPath: "#/properties/sharing/properties/together/type", keyword: "type", params: { type: schema12.properties.sharing.properties.together.type } };
            vErrors === null ? vErrors = [err63] : vErrors.push(err63), errors++;
          }
          if (typeof data26 == "number" && isFinite(data26) && (data26 < 0 || isNaN(data26))) {
            const err64 = { instancePath: instancePath + "/sharing/together", schemaPath: "#/properties/sharing/properties/together/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
            vErrors === null ? vErrors = [err64] : vErrors.push(err64), errors++;
          }
        }
      } else {
        const err65 = { instancePath: instancePath + "/sharing", schemaPath: "#/properties/sharing/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err65] : vErrors.push(err65), errors++;
      }
    }
    if (data.points !== void 0) {
      let data27 = data.points;
      if (Array.isArray(data27)) {
        const len2 = data27.length;
        for (let i2 = 0; i2 < len2; i2++)
          validate12(data27[i2], { instancePath: instancePath + "/points/" + i2, parentData: data27, parentDataProperty: i2, rootData }) || (vErrors = vErrors === null ? validate12.errors : vErrors.concat(validate12.errors), errors = vErrors.length);
      } else {
        const err66 = { instancePath: instancePath + "/points", schemaPath: "#/properties/points/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err66] : vErrors.push(err66), errors++;
      }
    }
    if (data.notices !== void 0) {
      let data29 = data.notices;
      if (Array.isArray(data29)) {
        const len3 = data29.length;
        for (let i3 = 0; i3 < len3; i3++) {
          let data30 = data29[i3];
          if (data30 && typeof data30 == "object" && !Array.isArray(data30)) {
            if (data30.severity === void 0) {
              const err67 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/required", keyword: "required", params: { missingProperty: "severity" } };
              vErrors === null ? vErrors = [err67] : vErrors.push(err67), errors++;
            }
            if (data30.code === void 0) {
              const err68 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/required", keyword: "required", params: { missingProperty: "code" } };
              vErrors === null ? vErrors = [err68] : vErrors.push(err68), errors++;
            }
            if (data30.message === void 0) {
              const err69 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/required", keyword: "required", params: { missingProperty: "message" } };
              vErrors === null ? vErrors = [err69] : vErrors.push(err69), errors++;
            }
            if (data30.line === void 0) {
              const err70 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/required", keyword: "required", params: { missingProperty: "line" } };
              vErrors === null ? vErrors = [err70] : vErrors.push(err70), errors++;
            }
            if (data30.column === void 0) {
              const err71 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/required", keyword: "required", params: { missingProperty: "column" } };
              vErrors === null ? vErrors = [err71] : vErrors.push(err71), errors++;
            }
            for (const key5 in data30)
              if (!(key5 === "severity" || key5 === "code" || key5 === "message" || key5 === "hint" || key5 === "line" || key5 === "column")) {
                const err72 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key5 } };
                vErrors === null ? vErrors = [err72] : vErrors.push(err72), errors++;
              }
            if (data30.severity !== void 0) {
              let data31 = data30.severity;
              if (!(data31 === "error" || data31 === "warning" || data31 === "notice")) {
                const err73 = { instancePath: instancePath + "/notices/" + i3 + "/severity", schemaPath: "#/definitions/notice/properties/severity/enum", keyword: "enum", params: { allowedValues: schema23.properties.severity.enum } };
                vErrors === null ? vErrors = [err73] : vErrors.push(err73), errors++;
              }
            }
            if (data30.code !== void 0 && typeof data30.code != "string") {
              const err74 = { instancePath: instancePath + "/notices/" + i3 + "/code", schemaPath: "#/definitions/notice/properties/code/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err74] : vErrors.push(err74), errors++;
            }
            if (data30.message !== void 0 && typeof data30.message != "string") {
              const err75 = { instancePath: instancePath + "/notices/" + i3 + "/message", schemaPath: "#/definitions/notice/properties/message/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err75] : vErrors.push(err75), errors++;
            }
            if (data30.hint !== void 0 && typeof data30.hint != "string") {
              const err76 = { instancePath: instancePath + "/notices/" + i3 + "/hint", schemaPath: "#/definitions/notice/properties/hint/type", keyword: "type", params: { type: "string" } };
              vErrors === null ? vErrors = [err76] : vErrors.push(err76), errors++;
            }
            if (data30.line !== void 0) {
              let data35 = data30.line;
              if (!(typeof data35 == "number" && !(data35 % 1) && !isNaN(data35) && isFinite(data35)) && data35 !== null) {
                const err77 = { instancePath: instancePath + "/notices/" + i3 + "/line", schemaPath: "#/definitions/notice/properties/line/type", keyword: "type", params: { type: schema23.properties.line.type } };
                vErrors === null ? vErrors = [err77] : vErrors.push(err77), errors++;
              }
              if (typeof data35 == "number" && isFinite(data35) && (data35 < 1 || isNaN(data35))) {
                const err78 = { instancePath: instancePath + "/notices/" + i3 + "/line", schemaPath: "#/definitions/notice/properties/line/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
                vErrors === null ? vErrors = [err78] : vErrors.push(err78), errors++;
              }
            }
            if (data30.column !== void 0) {
              let data36 = data30.column;
              if (!(typeof data36 == "number" && !(data36 % 1) && !isNaN(data36) && isFinite(data36)) && data36 !== null) {
                const err79 = { instancePath: instancePath + "/notices/" + i3 + "/column", schemaPath: "#/definitions/notice/properties/column/type", keyword: "type", params: { type: schema23.properties.column.type } };
                vErrors === null ? vErrors = [err79] : vErrors.push(err79), errors++;
              }
              if (typeof data36 == "number" && isFinite(data36) && (data36 < 1 || isNaN(data36))) {
                const err80 = { instancePath: instancePath + "/notices/" + i3 + "/column", schemaPath: "#/definitions/notice/properties/column/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
                vErrors === null ? vErrors = [err80] : vErrors.push(err80), errors++;
              }
            }
          } else {
            const err81 = { instancePath: instancePath + "/notices/" + i3, schemaPath: "#/definitions/notice/type", keyword: "type", params: { type: "object" } };
            vErrors === null ? vErrors = [err81] : vErrors.push(err81), errors++;
          }
        }
      } else {
        const err82 = { instancePath: instancePath + "/notices", schemaPath: "#/properties/notices/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err82] : vErrors.push(err82), errors++;
      }
    }
  } else {
    const err83 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err83] : vErrors.push(err83), errors++;
  }
  return validate11.errors = vErrors, errors === 0;
}
function validate10(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (Array.isArray(data)) {
    const len0 = data.length;
    for (let i0 = 0; i0 < len0; i0++)
      validate11(data[i0], { instancePath: instancePath + "/" + i0, parentData: data, parentDataProperty: i0, rootData }) || (vErrors = vErrors === null ? validate11.errors : vErrors.concat(validate11.errors), errors = vErrors.length);
  } else {
    const err0 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "array" } };
    vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
  }
  return validate10.errors = vErrors, errors === 0;
}

/** All places where the value breaks the schema; none when it keeps it. */
export function resultFaults(value: unknown): readonly SchemaFault[] {
  return validate(value) ? [] : validate.errors;
}
