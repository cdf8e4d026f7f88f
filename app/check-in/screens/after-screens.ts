export { ReceiptScreen } from './receipt-screen.tsx'
export { WaitingScreen } from './waiting-screen.tsx'
