export { writeJson, writeJsonLine } from './json.ts';
export type { JsonOptions } from './json.ts';
export { LOSS_WORDS, citeCalibration } from './calibration-words.ts';
export { citeCorrection, readCorrectionFile, writeCorrectionFile } from './correction-file.ts';
export { reportCharts } from './report-charts.ts';
export { drawIsometric } from './svg-isometric.ts';
export { readCurveCsv } from './curve-csv.ts';
export type { CurvePoint } from './curve-csv.ts';
export { jsonFaults, readJson } from './json-text.ts';
export { readBriefFile, writeBriefFile } from './brief-file.ts';
export { readDesign, readDesignFile, writeDesignFile } from './design-file.ts';
export type { DesignFile, DesignRead } from './design-file.ts';
export { designJsonSchema } from './design-schema.ts';
export { readFrontFile, writeFrontFile } from './front-file.ts';
export { frontJsonSchema } from './front-schema.ts';
export { readHistoryFile, writeHistoryFile, writeHistoryLine } from './history-file.ts';
export type { History } from './history-file.ts';
export { readCheckpointFile, writeCheckpointFile } from './checkpoint-file.ts';
export { writeFrontCsv } from './csv.ts';
export { schemaFiles } from './schema-files.ts';
export { frontDigest, readNotesFile, writeNotesFile } from './notes-file.ts';
export type { DesignNote, Notes } from './notes-file.ts';
export { isSameCase, mergeCases, readVerifyFile, writeVerifyFile } from './verify-file.ts';
export {
  VERIFY_HEADINGS,
  VERIFY_METHOD,
  verdictLines,
  verifyMark,
  verifyRow,
} from './verify-words.ts';
export { readVerifyState, writeVerifyState } from './verify-state-file.ts';
export { verifyJsonSchema } from './verify-schema.ts';
export type { VerifyFindings } from './verify-findings-schema.ts';
export type { Trust, VerifyCase } from './verify-schema.ts';
export { readRunRecord, writeRunRecord } from './run-record.ts';
export type { RunRecord } from './run-record.ts';
export { openRunZip, writeRunZip } from './run-zip.ts';
export type { RunTexts } from './run-zip.ts';
export { readStl, writeStl } from './stl.ts';
export { writeGreyPng } from './png.ts';
export { readThreeMf, writeThreeMf } from './three-mf.ts';
export type { ThreeMfContent, ThreeMfText } from './three-mf.ts';
export { writeReport } from './report-html.ts';
export type { ReportContent, ReportDesign, ReportPicture } from './report-html.ts';
export { drawDesign } from './svg-drawing.ts';
export type { DrawingText } from './svg-drawing.ts';
export { drawFront } from './svg-front.ts';
export type { FrontPictureOptions } from './svg-front.ts';
export { figure } from './figure.ts';
export { escapeXml } from './xml.ts';
